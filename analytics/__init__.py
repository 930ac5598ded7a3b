"""What a colour salon's exported records mean, worked out from a folder of files."""
