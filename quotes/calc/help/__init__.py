"""What each number on the pages means, in a sentence, and the words of the trade."""
