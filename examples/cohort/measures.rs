//! What the table is made of: medians, shares, and how well a chance was forecast.

/// The value in the middle; a number that is none where there is nothing.
pub fn median(values: impl IntoIterator<Item = f64>) -> f64 {
    quantile(values, 0.5)
}

/// The value below which this share lies.
pub fn quantile(values: impl IntoIterator<Item = f64>, share: f64) -> f64 {
    let mut all: Vec<f64> = values.into_iter().collect();
    all.sort_by(f64::total_cmp);
    let Some(last) = all.len().checked_sub(1) else {
        return f64::NAN;
    };
    let at = share * last as f64;
    let below = all[at.floor() as usize];
    let above = all[at.ceil() as usize];
    below + (above - below) * at.fract()
}

/// The mean.
pub fn mean(values: impl IntoIterator<Item = f64>) -> f64 {
    let (sum, count) = values
        .into_iter()
        .fold((0.0, 0.0), |(sum, count), value| (sum + value, count + 1.0));
    sum / count
}

/// The share that is so.
pub fn share(values: impl IntoIterator<Item = bool>) -> f64 {
    mean(values.into_iter().map(|so| f64::from(u8::from(so))))
}

/// The mean squared distance of forecast chances from what came: Brier's score.
pub fn brier(forecasts: &[(f64, bool)]) -> f64 {
    mean(forecasts.iter().map(|(chance, came)| {
        let off = chance - f64::from(u8::from(*came));
        off * off
    }))
}

/// The expected calibration error over ten bins: how far, on average, the share that
/// came lies from the chance that was forecast.
pub fn calibration_error(forecasts: &[(f64, bool)]) -> f64 {
    let mut bins = [(0.0_f64, 0.0_f64); 10];
    for (chance, came) in forecasts {
        let bin = &mut bins[((chance * 10.0) as usize).min(9)];
        bin.0 += chance;
        bin.1 += f64::from(u8::from(*came));
    }
    let off: f64 = bins.iter().map(|(said, came)| (said - came).abs()).sum();
    off / forecasts.len().max(1) as f64
}
