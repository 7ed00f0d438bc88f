"""The handout: what the child needs on paper, and a page for the grown-up."""

from studio.handout.make import handout_pdf, make_handout

__all__ = ["handout_pdf", "make_handout"]
