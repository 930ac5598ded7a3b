"""What lies in the salon's folder: the loaded book, the exports that are kept there, who was asked to come."""
