"""The bag: everything that is handed over, in one folder that plain tools can check (RFC 8493)."""
