# SPDX-License-Identifier: MIT
# Fits in R what cross_check_numbers fitted, prints both, and fails where they part by more than the tolerance.
# Usage: Rscript cross_check.R DATA_FOLDER OURS.csv
suppressMessages({
  library(nlme)
  library(lme4)
  library(pbkrtest)
  library(metafor)
})

arguments <- commandArgs(trailingOnly = TRUE)
data_in <- function(name) read.csv(file.path(arguments[1], name), stringsAsFactors = TRUE)
ours <- read.csv(arguments[2])
theirs <- list()
keep <- function(name, value, tolerance) {
  theirs[[length(theirs) + 1]] <<- data.frame(name = name, r = as.numeric(value), tolerance = tolerance)
}

# Wheat2: spherical correlation with nugget, REML
wheat <- data_in("wheat2.csv")
fit <- gls(yield ~ variety - 1, wheat, method = "REML",
           correlation = corSpher(c(28, 0.2), form = ~ latitude + longitude, nugget = TRUE))
shape <- coef(fit$modelStruct$corStruct, unconstrained = FALSE)
keep("wheat2 spherical range", shape[["range"]], 1e-3)
keep("wheat2 spherical nugget share", shape[["nugget"]], 1e-3)
keep("wheat2 spherical sigma", fit$sigma, 1e-3)
keep("wheat2 spherical loglik", as.numeric(logLik(fit)), 1e-6)
keep("wheat2 ARAPAHOE - LANCER", coef(fit)[["varietyARAPAHOE"]] - coef(fit)[["varietyLANCER"]], 1e-3)

# Mercer & Hall: exponential correlation with nugget, REML; the fit whose time is compared (processor time)
hall <- data_in("mercer_hall_wheat.csv")
used <- function() sum(proc.time()[c("user.self", "sys.self")])
started <- used()
fit <- gls(yield ~ 1, hall, method = "REML",
           correlation = corExp(c(10, 0.34), form = ~ lon + lat, nugget = TRUE))
seconds <- used() - started
shape <- coef(fit$modelStruct$corStruct, unconstrained = FALSE)
keep("mercer-hall exponential range", shape[["range"]], 1e-2)
keep("mercer-hall sill", fit$sigma^2 * (1 - shape[["nugget"]]), 1e-2)
keep("mercer-hall loglik", as.numeric(logLik(fit)), 1e-6)
keep("mercer-hall mean", coef(fit)[[1]], 1e-4)
keep("mercer-hall mean se", sqrt(vcov(fit)[1, 1]), 2e-3)
keep("mercer-hall seconds", seconds, Inf)

# immer: unequal blocks, Kenward-Roger
immer <- data_in("immer.csv")
long <- data.frame(y = c(immer$Y1, immer$Y2), year = factor(rep(1:2, each = 30)), block = factor(rep(1:30, 2)))
long <- long[-c(1, 5, 9, 33), ]
with <- lmer(y ~ year + (1 | block), long, REML = TRUE,
             control = lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-10)))
without <- lmer(y ~ 1 + (1 | block), long, REML = TRUE)
test <- KRmodcomp(with, without)
keep("immer effect", fixef(with)[["year2"]], 1e-4)
keep("immer KR se", sqrt(as.matrix(vcovAdj(with))[2, 2]), 1e-4)
keep("immer KR df", test$stats$ddf, 1e-3)

# beets: split plot of three blocks
beets <- data_in("beets.csv")
test <- KRmodcomp(lmer(sugpct ~ block + sow + harvest + (1 | block:harvest), beets),
                  lmer(sugpct ~ block + sow + (1 | block:harvest), beets))
keep("beets KR F of harvest", test$stats$Fstat, 1e-4)
keep("beets KR df", test$stats$ddf, 1e-3)

# oats: split plot
oats <- data_in("oats.csv")
plots <- lmer(Y ~ V + N + (1 | B/V), oats, REML = TRUE)
keep("oats KR F of nitrogen", KRmodcomp(plots, lmer(Y ~ V + (1 | B/V), oats))$stats$Fstat, 1e-3)
keep("oats loglik", as.numeric(logLik(plots)), 1e-6)

# BCG: random effects
bcg <- data_in("bcg.csv")
pooled <- rma(yi, vi, data = bcg, method = "REML", control = list(threshold = 1e-12, maxiter = 1000))
adjusted <- rma(yi, vi, data = bcg, method = "REML", test = "adhoc",
                control = list(threshold = 1e-12, maxiter = 1000))
keep("bcg mean", coef(pooled)[[1]], 1e-6)
keep("bcg tau2", pooled$tau2, 1e-6)
keep("bcg mKH se", adjusted$se, 1e-6)

# konstantopoulos2011: two levels
schools <- data_in("konstantopoulos2011.csv")
fit <- rma.mv(yi, vi, random = ~ 1 | district/school, data = schools)
keep("two-level mean", coef(fit)[[1]], 1e-5)
keep("two-level se", fit$se, 1e-4)
keep("two-level between groups", fit$sigma2[1], 1e-3)
keep("two-level within groups", fit$sigma2[2], 1e-3)

both <- merge(ours, do.call(rbind, theirs), by = "name", sort = FALSE)
both$apart <- abs(both$ours / both$r - 1)
both$holds <- both$apart <= both$tolerance
print(both[, c("name", "ours", "r", "apart", "tolerance", "holds")], digits = 8, row.names = FALSE)
speed <- both[both$name == "mercer-hall seconds", ]
cat(sprintf("nlme::gls took %.2f s of processor time, quartercut %.3f s for the same fit: %.0f times.\n",
            speed$r, speed$ours, speed$r / speed$ours))
if (nrow(both) != length(theirs) || nrow(ours) != length(theirs)) stop("a number is missing on one side")
if (!all(both$holds)) stop("quartercut and R part")
