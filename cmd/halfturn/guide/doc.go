// Package guide says how a driveline is measured: which reading comes next, where the
// gauge is laid, what may be skipped and what is then taken for granted. The page asks
// one reading after the other, the worksheet has a box for each; both take every word
// from here.
package guide
