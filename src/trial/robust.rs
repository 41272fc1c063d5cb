//! Loss functions that do not let a few wild readings decide.
//!
//! Sources: Huber (1964), Robust Estimation of a Location Parameter, Annals of
//! Mathematical Statistics 35; Beaton & Tukey (1974), Technometrics 16, the
//! biweight; the constants are those of 95 % efficiency at normal errors
//! (Holland & Welsch 1977, Communications in Statistics A6). From memory.

/// A loss of one standardised residual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Loss {
    /// Square near nought, straight beyond [`HUBER`]: one valley only, a safe start.
    Huber,
    /// Square near nought, level beyond [`BIWEIGHT`]: a wild reading counts nothing.
    Biweight,
}

/// Residual at which Huber's loss turns straight.
const HUBER: f64 = 1.345;
/// Residual at which the biweight turns level.
const BIWEIGHT: f64 = 4.685;
/// Median of the absolute value of a standard normal variable.
const NORMAL_MEDIAN: f64 = 0.674_489_750_196_082;

impl Loss {
    /// ρ: the loss; about half the square near nought.
    pub fn value(self, residual: f64) -> f64 {
        let size = residual.abs();
        match self {
            Self::Huber if size <= HUBER => 0.5 * size * size,
            Self::Huber => HUBER * (size - 0.5 * HUBER),
            Self::Biweight => {
                let rest = (1.0 - (size / BIWEIGHT).powi(2)).max(0.0);
                BIWEIGHT * BIWEIGHT / 6.0 * (1.0 - rest.powi(3))
            }
        }
    }

    /// ψ = dρ/dr: the pull of a reading.
    pub fn pull(self, residual: f64) -> f64 {
        residual * self.weight(residual)
    }

    /// ψ(r)/r: what a reading counts, 1 near nought.
    pub fn weight(self, residual: f64) -> f64 {
        let size = residual.abs();
        match self {
            Self::Huber => (HUBER / size).min(1.0),
            Self::Biweight => (1.0 - (size / BIWEIGHT).powi(2)).max(0.0).powi(2),
        }
    }

    /// dψ/dr.
    pub fn slope(self, residual: f64) -> f64 {
        let size = residual.abs();
        match self {
            Self::Huber => f64::from(u8::from(size <= HUBER)),
            Self::Biweight if size >= BIWEIGHT => 0.0,
            Self::Biweight => {
                let square = (size / BIWEIGHT).powi(2);
                (1.0 - square) * (1.0 - 5.0 * square)
            }
        }
    }
}

/// Standard deviation of residuals by their median size, which half of them being wild does not move.
///
/// `fitted` unknowns were fitted to them, which makes residuals smaller than errors.
pub(super) fn scale(residuals: &[f64], fitted: usize) -> f64 {
    let mut sizes: Vec<f64> = residuals.iter().map(|residual| residual.abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let count = sizes.len();
    if count == 0 {
        return 0.0;
    }
    let median = 0.5 * (sizes[(count - 1) / 2] + sizes[count / 2]);
    let count = count as f64;
    let left = (count - fitted as f64).max(1.0);
    median / NORMAL_MEDIAN * (count / left).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn physics_pull_is_the_slope_of_the_loss_and_so_on() {
        for loss in [Loss::Huber, Loss::Biweight] {
            for residual in [-6.0, -4.0, -2.0, -0.5, 0.3, 1.2, 1.5, 3.3, 4.6, 5.0] {
                let step = 1e-6;
                let slope = |f: &dyn Fn(f64) -> f64| {
                    (f(residual + step) - f(residual - step)) / (2.0 * step)
                };
                let pull = slope(&|r| loss.value(r));
                assert_relative_eq!(pull, loss.pull(residual), epsilon = 1e-8);
                let bend = slope(&|r| loss.pull(r));
                assert_relative_eq!(bend, loss.slope(residual), epsilon = 1e-8);
            }
        }
    }

    /// Holland & Welsch 1977: 95 % efficiency, E ψ'² / E ψ², at normal errors; from memory. Integrated here.
    #[test]
    fn published_constants_give_95_per_cent_efficiency() {
        for loss in [Loss::Huber, Loss::Biweight] {
            let (mut slope, mut square) = (0.0, 0.0);
            let step = 1e-3;
            for at in -8000..8000 {
                let r = (f64::from(at) + 0.5) * step;
                let density = (-0.5 * r * r).exp() / (2.0 * std::f64::consts::PI).sqrt();
                slope += loss.slope(r) * density * step;
                square += loss.pull(r).powi(2) * density * step;
            }
            assert_relative_eq!(slope * slope / square, 0.95, epsilon = 1e-3);
        }
    }

    #[test]
    fn physics_wild_readings_hardly_move_the_scale() {
        let tame: Vec<f64> = (-50..=50).map(|i| f64::from(i) / 50.0).collect();
        let mut wild = tame.clone();
        wild[..10].fill(1e6);
        assert!(scale(&wild, 0) < 1.25 * scale(&tame, 0));
        assert_relative_eq!(scale(&[1.0, -1.0], 1), 2.0_f64.sqrt() / NORMAL_MEDIAN);
    }
}
