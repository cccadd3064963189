// What Python answers, and how it is shown: the number at once, the range when the hand rests, spoken once after that.
// Owner of `m.line`, `m.reading`, `m.silent`, `m.remark` and `m.speaking`.

import { say } from "../shared/page/elements.js";
import { SILENT, lineTo } from "../shared/line.js";
import { meanIn, rounded } from "../shared/run/means.js";
import { degrees } from "../shared/drawing/scales.js";
import { moveTo } from "./shown.js";

const SPEAK = 250; // milliseconds
const LOST = `${SILENT} Your marks are kept up to the last number.`;

export function listen(m) {
  m.line = lineTo(m.model, m.me, () => { m.silent = true; tell(m); });
  const heard = () => answered(m);
  m.model.on("change:answer", heard);
  m.life.addEventListener("abort", () => { m.line.close(); clearTimeout(m.speaking); m.model.off("change:answer", heard); });
  showAnswer(m);
  clearTimeout(m.speaking); // what stands there when the view opens is not news
}

export function remark(m, words) { // a sentence about the last move, until the next one
  m.remark = words;
  tell(m);
}

function answered(m) {
  m.line.heard(m.model.get("answer").to);
  m.silent = false;
  if (m.line.free) m.reading = m.model.get("answer"); // until then the hand is ahead of Python
  if (m.reading.settled) m.frame.root.dispatchEvent(new CustomEvent("kit-kept", { bubbles: true })); // for the strip above the lesson
  moveTo(m, m.line.free ? m.model.get("edges") : m.edges); // nothing under way here: Python, or another view, may have moved them
  showAnswer(m);
}

function showAnswer(m) {
  const answer = m.model.get("answer");
  say(m.frame.number, m.reading.value);
  for (const name of ["undo", "redo"]) m.frame.buttons[name].setAttribute("aria-disabled", String(!answer[name]));
  tell(m);
  if (!answer.settled || !m.line.free) return;
  m.frame.root.classList.remove("kit-marker-waiting");
  say(m.frame.sentence, answer.sentence);
  say(m.frame.condition, answer.condition);
}

export function foresee(m, edges) { // what Python will say of these windows, at once; an old range never stands beside a new number
  const [before, after] = [0, 4].map(k => meanIn(m.sums, edges[k], edges[k + 1])), read = before !== null && after !== null, { unit } = m.picture;
  m.reading = { levels: read ? [before, after] : null, value: read ? `${rounded(degrees(unit).factor * (after - before), 2)} ${unit}` : "no number yet" };
  say(m.frame.number, m.reading.value);
  m.frame.root.classList.add("kit-marker-waiting");
  say(m.frame.sentence, "Its range for these windows is being worked out \u2026");
  say(m.frame.condition, "");
}

function tell(m) {
  say(m.frame.trouble, m.silent ? LOST : m.remark || m.model.get("answer").trouble);
  speak(m);
}

function speak(m) {
  clearTimeout(m.speaking);
  m.speaking = setTimeout(() => {
    const waiting = m.frame.root.classList.contains("kit-marker-waiting") && !m.silent;
    const news = [m.frame.trouble, ...(m.silent ? [] : [m.frame.sentence])].map(each => each.textContent);
    if (!waiting) m.frame.status.textContent = news.filter(Boolean).join(" ");
  }, SPEAK);
}
