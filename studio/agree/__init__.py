"""Said against shown: each rule is one file."""
