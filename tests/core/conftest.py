"""Beside this file stands `job_builder`, with which tests of every chapter say a job in a few words."""
