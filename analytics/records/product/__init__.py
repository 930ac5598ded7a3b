"""What is mixed, sold and kept on the shelf, with what it costs."""
