# The same tables of means pooled by metafor: what it takes, and whether it comes to the same.
#   Rscript pooling.R FILE        (FILE is what org.understock.bench.Plantings prints)
# Packages of Debian 12: r-base, r-cran-metafor (3.8-1).
suppressPackageStartupMessages(library(metafor))

lines <- strsplit(readLines(commandArgs(trailingOnly = TRUE)[[1]]), " ")
kind <- vapply(lines, `[[`, "", 1)
of_kind <- function(name) do.call(rbind, lines[kind == name])

rows <- as.data.frame(of_kind("row")[, -1])
names(rows) <- c("table", "site", "stock", "y", "v")
rows$y <- as.numeric(rows$y)
rows$v <- as.numeric(rows$v)
tau2 <- of_kind("tau2")
effects <- of_kind("effect")

differ <- FALSE
for (table in unique(rows$table)) {
  d <- rows[rows$table == table, ]
  d$site <- factor(d$site, unique(d$site))
  d$stock <- relevel(factor(d$stock, unique(d$stock)), "0")
  fit <- NULL
  pool <- function(threshold) {
    start <- proc.time()[["elapsed"]]
    fit <<- rma.uni(y, v, mods = ~ 0 + site + stock, data = d, method = "REML",
                    control = list(threshold = threshold, maxiter = 1000))
    proc.time()[["elapsed"]] - start
  }
  # The time is that of its own defaults; the answer is compared with its steps made fine.
  runs <- if (nrow(d) < 500) 25 else 5
  times <- replicate(runs, pool(1e-5))
  pool(1e-12)
  there <- effects[effects[, 2] == table, , drop = FALSE]
  at <- paste0("stock", there[, 3])
  apart <- max(abs(fit$beta[at, 1] - as.numeric(there[, 4])),
               abs(fit$se[match(at, rownames(fit$beta))] - as.numeric(there[, 5])),
               abs(fit$tau2 - as.numeric(tau2[tau2[, 2] == table, 3])))
  cat(sprintf("%s: %d means, R %s with metafor %s: median %.1f ms, best %.1f ms of %d runs; most apart %.1e\n",
              table, nrow(d), getRversion(), packageVersion("metafor"),
              1000 * median(times), 1000 * min(times), runs, apart))
  differ <- differ || !(apart <= 1e-6)
}
if (differ) stop("the answers differ")
