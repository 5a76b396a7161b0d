"""The trade: values and rules, without toolkit, database, paper, files, clock or chance."""
