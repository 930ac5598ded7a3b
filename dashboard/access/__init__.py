"""Who may see what: sign-in, roles, and the one gate that stands before every page, socket, download and upload."""
