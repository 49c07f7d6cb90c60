"""What comes in before a quote: calls, bookings, files of customers."""
