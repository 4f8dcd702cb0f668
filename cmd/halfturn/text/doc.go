// Package text sets words and numbers in lines that fit a narrow terminal.
package text
