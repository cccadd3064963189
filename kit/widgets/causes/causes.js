// Lesson 10: a card with seven causes to lay chips on, and a board with the bars of what each cause can still be.

import { BLOCKS } from "../cards/blocks.js";
import { cardOf } from "../cards/card.js";
import { rows } from "../intake/handing.js";
import { board, ranges } from "./board.js";
import { seven } from "./seven.js";

export default { render: cardOf({ ...BLOCKS, board, ranges, rows, seven }) };
