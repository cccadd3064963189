"""`python3 -m kit`. This file must be readable to any Python 3, so that an old one can say what is missing."""

import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Twin Vessels needs Python 3.11 or newer; this one is %d.%d. Get a newer one from www.python.org, "
        "then type the command again with it, for example: python3.13 -m kit lab" % sys.version_info[:2]
    )

from kit.bootstrap import main

sys.exit(main(sys.argv[1:]))
