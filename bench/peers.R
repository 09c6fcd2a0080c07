# R's own functions on the same tasks as bench/statistics.ts, in one process: name, seconds, answer, one task a line.

# The fastest of nine batches of at least 20 ms each, as on the other side: other work on the machine only ever adds.
seconds <- function(task) {
  batch <- function(times) system.time(for (i in seq_len(times)) task(), gcFirst = FALSE)[["elapsed"]]
  times <- 1
  while (batch(times) < 0.02) times <- times * 2
  min(replicate(9, batch(times) / times))
}

say <- function(name, task) {
  answer <- task()
  cat(name, format(seconds(task), digits = 6), paste(answer, collapse = ","), sep = "\t")
  cat("\n")
}

# Smallest single plan for two risks: for each acceptance number the least sample size that the consumer needs, by bisection.
smallest <- function(N, D1, D2, alpha = 0.05, beta = 0.10) {
  for (c in 0:N) {
    low <- c
    high <- N
    while (high - low > 1) {
      n <- (low + high) %/% 2
      if (phyper(c, D2, N - D2, n) <= beta) high <- n else low <- n
    }
    if (phyper(c, D1, N - D1, high) >= 1 - alpha) return(c(high, c))
  }
}

for (lot in list(c(10000, 100, 500), c(10000, 100, 250), c(10000, 100, 200), c(500, 5, 25), c(100000, 500, 1500)))
  say(paste("design", paste(format(lot, scientific = FALSE, trim = TRUE), collapse = " ")), function() smallest(lot[1], lot[2], lot[3]))

curve <- phyper(12, 0:1e6, 1e6:0, 800)
writeBin(curve, commandArgs(TRUE)[1])
say("curve", function() sum(phyper(12, 0:1e6, 1e6:0, 800)))
