"""Files -> records of text: found, decoded, split; workbooks in a process of their own."""
