//! How far the real boat departs from the equations, as factors on them.

/// Factors on what the equations give; all 1 is the equations as published.
///
/// Tank tests scatter about the equations that were fitted through them. These
/// factors move the equations within that scatter, all speeds alike, so that
/// its effect on an answer can be seen. Multiplying by 1 changes no bit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ModelForm {
    /// On the lift coefficient of the bottom.
    pub lift: f64,
    /// On the distance of the centre of pressure from the transom.
    pub centre_of_pressure: f64,
    /// On the resistance of the bare hull, outside the balance as the hump factor is.
    pub resistance: f64,
    /// On the distance of the centre of pressure near the hump, where hulls with a bow differ from a prism; fading with speed as [`crate::hydro::tank_fit::hull_form_share`] says.
    pub hull_form: f64,
}

impl ModelForm {
    /// The equations as published.
    pub const PUBLISHED: Self =
        Self { lift: 1.0, centre_of_pressure: 1.0, resistance: 1.0, hull_form: 1.0 };

    /// Whether the balance is so near the published one that what was found by scanning it still holds.
    pub(crate) fn is_usual(&self) -> bool {
        let centre = self.centre_of_pressure * self.hull_form;
        (0.75..=1.35).contains(&self.lift) && (0.85..=1.2).contains(&centre)
    }
}

impl Default for ModelForm {
    fn default() -> Self {
        Self::PUBLISHED
    }
}
