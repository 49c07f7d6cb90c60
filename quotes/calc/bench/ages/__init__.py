"""What an engine and its parts have run: lives begun anew, parts that go from engine to engine, next due."""
