// Lesson 12: the claim as it stands, and what readers would ask.

import { make } from "../shared/page/elements.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(() => {
  const claim = make("blockquote", { class: "kit-claim" }), asks = make("ul", { class: "kit-asks" });
  const show = answer => {
    claim.textContent = answer.claim;
    asks.replaceChildren(...answer.asks.map(words => make("li", {}, words)));
  };
  return { parts: [claim, asks], show };
}) };
