"""The screens of the journal."""
