# Thirty years of hourly temperatures through four models, in plain R without packages:
# the same series as ThirtyYears.java makes, the same equations, written independently of it.
#
#   Rscript chill.R             prints the sums and the time they took
#   Rscript chill.R sums.txt    also compares them with those in the file; fails beyond 1e-9 relative

HOURS <- 30 * 365 * 24

series <- function() {
  noise <- numeric(HOURS)
  seed <- 20260101
  weather <- 0
  for (h in seq_len(HOURS)) {
    seed <- (seed * 16807) %% 2147483647
    weather <- 0.98 * weather + (2 * seed / 2147483647 - 1)
    noise[h] <- weather
  }
  h <- seq_len(HOURS) - 1
  year <- 365 * 24
  yearly <- 9 * sin(2 * pi * (h + 0.45 * year) / year)
  daily <- 4.5 * sin(2 * pi * (h - 9) / 24)
  floor(10 * (9 + yearly + daily + noise) + 0.5) / 10
}

# Bennett 1949, Weinberger 1950
chilling_hours <- function(t) sum(t >= 0 & t <= 7.2)

# Richardson, Seeley and Walker 1974; classes open below, closed above
utah_units <- function(t) {
  class <- cut(t, c(-Inf, 1.4, 2.4, 9.1, 12.4, 15.9, 18, Inf), labels = FALSE, right = TRUE)
  sum(c(0, 0.5, 1, 0.5, 0, -0.5, -1)[class])
}

# Anderson, Richardson and Kesner 1986
growing_degree_hours <- function(t) {
  rising <- 21 / 2 * (1 + cos(pi + pi * (t - 4) / 21))
  falling <- 21 * (1 + cos(pi / 2 + pi / 2 * (t - 25) / 11))
  sum(ifelse(t < 4 | t > 36, 0, ifelse(t <= 25, rising, falling)))
}

# Fishman, Erez and Couvillon 1987: whatever depends on the temperature alone for all hours at once,
# then the recursion hour by hour
chill_portions <- function(t) {
  k <- t + 273
  equilibrium <- 139500 / 2.567e18 * exp((12888.8 - 4153.5) / k)
  remains <- exp(-2.567e18 * exp(-12888.8 / k))
  s <- exp(1.6 * 277 * (k - 277) / k)
  share <- s / (1 + s)
  carried <- 0
  portions <- 0
  for (h in seq_along(t)) {
    x <- equilibrium[h] - (equilibrium[h] - carried) * remains[h]
    if (x >= 1) {
      portions <- portions + x * share[h]
      x <- x - x * share[h]
    }
    carried <- x
  }
  portions
}

all_models <- function(t) {
  c("chill-hours" = chilling_hours(t), "utah-units" = utah_units(t),
    "chill-portions" = chill_portions(t), "growing-degree-hours" = growing_degree_hours(t))
}

t <- series()
sums <- NULL
times <- replicate(15, {
  start <- proc.time()[["elapsed"]]
  sums <<- all_models(t)
  proc.time()[["elapsed"]] - start
})
for (name in names(sums)) cat(name, format(sums[[name]], digits = 15), "\n")
cat(sprintf("R %s: median %.0f ms, best %.0f ms of %d runs\n", getRversion(),
            1000 * median(times[-(1:3)]), 1000 * min(times), length(times)))

file <- commandArgs(trailingOnly = TRUE)
if (length(file) == 1) {
  other <- read.table(file, col.names = c("name", "sum"))
  stopifnot(setequal(other$name, names(sums)))
  apart <- abs(other$sum / sums[other$name] - 1)
  cat(paste0(other$name, ": ", other$sum, ", apart by ", signif(apart, 2)), sep = "\n")
  if (any(!(apart <= 1e-9))) stop("the sums differ")
}
