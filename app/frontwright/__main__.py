"""`python -m frontwright` is the same as the command `frontwright`."""

import sys

if __name__ == "__main__":
    from frontwright.cli import main

    sys.exit(main())
