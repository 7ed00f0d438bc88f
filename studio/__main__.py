"""`python -m studio`."""

import sys

from studio.cli import main

sys.exit(main())
