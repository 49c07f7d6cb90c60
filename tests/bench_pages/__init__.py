"""Times pages on ten years of trading: home, lists, worksheet, search and reports, at two sizes."""
