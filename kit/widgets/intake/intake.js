// A card with the blocks for runs that come in.

import { cardOf } from "../cards/card.js";
import { RUN_BLOCKS } from "./blocks.js";

export default { render: cardOf(RUN_BLOCKS) };
