package main

import _ "embed"

// notices are the licences of what the program contains; the script beside the text
// collects them.
//
//go:embed notices/notices.txt
var notices string
