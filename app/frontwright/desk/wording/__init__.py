"""Every word that a person reads: names of tables and fields, sentences of checks, words for sources and levels."""
