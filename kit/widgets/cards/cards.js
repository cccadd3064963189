// The cards of a lesson.

import { BLOCKS } from "./blocks.js";
import { cardOf } from "./card.js";

export default { render: cardOf(BLOCKS) };
