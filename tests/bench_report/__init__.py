"""`make bench`: each figure beside the bare library on the same work in the same run, in one report."""
