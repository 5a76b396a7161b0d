"""Strips and skins that cover what stays."""
