# The tempo model for one child and three measures, written anew in R: splines::splineDesign for the curves, solve()
# for the conditioning, a 33 x 23 grid over tempo and intensity. Reads CSV written by the test, prints mean and SD of
# each target as mm.
library(splines)
a <- commandArgs(TRUE)
p <- dget(a[1])
obs <- read.csv(a[2]); target <- read.csv(a[3])
B <- function(u) { k <- p$knots; u <- pmin(pmax(u, k[1]), k[length(k)] - 1e-12)
  splineDesign(c(rep(k[1], 3), k, rep(k[length(k)], 3)), u, ord = 4) }
K <- length(p$knots) + 2; P <- 3 * K
H <- function(u, d) { b <- B(u); m <- matrix(0, length(u), P)
  for (i in seq_along(u)) m[i, (d[i] - 1) * K + 1:K] <- b[i, ]; m }
x <- function(t) log(t + 0.75)
clock <- function(t) p$end - 0.5 * log1p(exp((p$end - t) / 0.5))
mat <- function(r, l) (1 + sqrt(3) * abs(r) / l) * exp(-sqrt(3) * abs(r) / l)
R <- function(t1, d1, s1, t2, d2, s2) outer(s1, s2) * p$share[d1, d2] * mat(outer(clock(t1), clock(t2), "-"), p$residualYears)
Sig <- p$covariance
grid <- expand.grid(b = seq(-3.6, 3.6, length = 33), g = seq(-3.6, 3.6, length = 23))
lw <- numeric(nrow(grid)); M <- V <- matrix(0, nrow(grid), nrow(target))
for (i in seq_len(nrow(grid))) { b <- grid$b[i]; g <- grid$g[i]
  u <- function(t) exp(g * p$intensitySd) * (x(t) - x(p$centre) - b * p$tempoSd)
  th <- p$mean + b * p$tempoEffect + g * p$intensityEffect
  H1 <- H(u(obs$age), obs$d); H2 <- H(u(target$age), target$d)
  S <- H1 %*% Sig %*% t(H1) + R(obs$age, obs$d, obs$residual, obs$age, obs$d, obs$residual) + diag(obs$error^2)
  C <- H2 %*% Sig %*% t(H1) + R(target$age, target$d, target$residual, obs$age, obs$d, obs$residual)
  r <- obs$value - H1 %*% th
  lw[i] <- -0.5 * (b^2 + g^2) - 0.5 * (as.numeric(determinant(S)$modulus) + sum(r * solve(S, r)))
  M[i, ] <- H2 %*% th + C %*% solve(S, r)
  V[i, ] <- diag(H2 %*% Sig %*% t(H2)) + target$residual^2 - diag(C %*% solve(S, t(C))) }
w <- exp(lw - max(lw)); w <- w / sum(w)
mean <- colSums(w * M); sd <- sqrt(colSums(w * (V + M^2)) - mean^2)
cat(paste(format(mean, digits = 10), format(sd, digits = 10)), sep = "\n")
cat("tempo", sum(w * grid$b), sqrt(sum(w * grid$b^2) - sum(w * grid$b)^2), "\n")
