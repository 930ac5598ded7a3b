"""A client taken out of a salon's files (GDPR, article 17): who she is, where she lies, what stays without her."""
