// All blocks of a card for runs: those of every card and those of this room.

import { BLOCKS } from "../cards/blocks.js";
import { code, file, folded, rows } from "./handing.js";
import { picks } from "./picks.js";
import { sheet } from "./sheet.js";
import { still } from "./still.js";
import { ticks } from "./ticks.js";

export const RUN_BLOCKS = { ...BLOCKS, code, file, folded, picks, rows, sheet, still, ticks };
