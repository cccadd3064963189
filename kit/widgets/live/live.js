// The live card: large figures, a verdict that is read aloud when its word changes, and word to Python that somebody looks.

import { cardOf } from "../cards/card.js";
import { RUN_BLOCKS } from "../intake/blocks.js";
import { figures, make } from "../shared/page/elements.js";

const verdict = (block, card) => {
  const word = make("b", { class: "kit-word" }, block.word);
  if (card.word !== undefined && card.word !== block.word) card.aloud(`${block.word}. ${block.text}`);
  card.word = block.word;
  return make("div", { class: "kit-text" }, make("p", { class: "kit-label" }, "Is the difference steady?"), make("p", {}, word, " ", block.text));
};

const live = (block, card) => {
  const tell = press => card.model.send({ press, number: "", values: {} });
  const node = make("span", { hidden: "" });
  node.leave = () => tell("left");
  tell("seen");
  return node;
};

export default { render: cardOf({ ...RUN_BLOCKS, figures: block => figures(block.pairs), live, verdict }) };
