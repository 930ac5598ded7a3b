"""Figures: one question, one file, one pure function from table frames to one frame."""
