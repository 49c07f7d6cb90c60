"""Invoices, credit notes, deposit invoices, receipts and statements as documents."""
