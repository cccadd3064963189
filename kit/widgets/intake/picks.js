// A question of the intake form: its answer is sent as soon as it is chosen, so that the preview follows.

import { BLOCKS } from "../cards/blocks.js";

export const picks = (block, card) => {
  const node = BLOCKS.choices({ ...block, across: false }, card);
  node.querySelectorAll(".kit-letter").forEach(each => each.remove()); // answers have no letters here: they are taken one by one
  node.addEventListener("change", event => card.send(block.press, { question: block.key, answer: event.target.value }));
  return node;
};
