"""What the words and the values of all sheets say together: which table each is, which column each heading means."""
