"""`python3 -m kit`. Any Python from 2.7 on can read this file and kit/__init__.py, so that an old one can say what is missing."""

import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Twin Vessels needs Python 3.11 or newer; this one is %d.%d. Get a newer one from www.python.org, "
        "then type the command again with it, for example: python3.13 -m kit lab" % sys.version_info[:2]
    )

from kit.bootstrap import main

sys.exit(main(sys.argv[1:]))
