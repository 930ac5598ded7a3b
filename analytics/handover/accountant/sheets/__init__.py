"""The sheets of the accountant's folder, one subject a file: frames in, a sheet out."""
