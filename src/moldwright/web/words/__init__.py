"""The words of the desk's pages: English in the pages themselves, other languages in gettext catalogs."""
