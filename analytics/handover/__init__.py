"""What is written for other people: papers to print, calendars, lists, the accountant's folder."""
