"""The trade: values and rules. No toolkit, database, paper, files, clock or chance in here."""
