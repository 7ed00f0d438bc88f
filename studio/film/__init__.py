"""The film: pictures over the teacher's picture, with her sound."""
