//! What is asked of every boat, on the command line.

use clap::{Args, ValueEnum};
use uom::si::f64::{Angle, Velocity};

use crate::balance::{Settings, fields};
use crate::boat::Fault;
use crate::cli::Failure;
use crate::cli::arguments::{self, DrawArguments, UnitArguments, few};
use crate::cli::run::SettingsArguments;
use crate::fleet::{Question, RunQuestion, SizeQuestion, run_field, size_field};

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum Of {
    /// How she runs, point by point
    Run,
    /// Which planes she needs
    Size,
}

/// What is asked of every boat.
#[derive(Clone, Debug, Args)]
pub(in crate::cli) struct QuestionArguments {
    /// What is asked of every boat
    #[arg(long, value_enum, default_value_t = Of::Run)]
    of: Of,
    /// A speed with its unit, for example "22 kn"; may be repeated
    #[arg(long, value_name = "SPEED", value_parser = arguments::speed)]
    speed: Vec<Velocity>,
    /// A mean deflection of the planes with its unit, for example "5 deg"; may be repeated [default: 0 deg]
    #[arg(long, value_name = "ANGLE", value_parser = arguments::deflection)]
    deflection: Vec<Angle>,
    /// Numbers of the answer, by their names in the table without the unit, or `all` [default: the main ones]
    #[arg(long, value_name = "FIELD,FIELD", value_delimiter = ',')]
    fields: Vec<String>,
    #[command(flatten)]
    balance: SettingsArguments,
    #[command(flatten)]
    draw: DrawArguments,
    #[command(flatten)]
    pub(in crate::cli) units: UnitArguments,
}

impl QuestionArguments {
    /// The word for what is asked.
    pub(in crate::cli) const fn word(&self) -> &'static str {
        match self.of {
            Of::Run => "run",
            Of::Size => "size",
        }
    }

    /// How the balances are computed.
    pub(in crate::cli) fn settings(&self) -> Settings {
        self.balance.settings()
    }

    /// The question.
    pub(in crate::cli) fn question(&self) -> Result<Question, Failure> {
        few("speed", &self.speed)?;
        few("deflection", &self.deflection)?;
        let is_all = self.fields.iter().any(|field| field == "all");
        let (settings, units) = (self.settings(), self.units.asked());
        match self.of {
            Of::Run => {
                let mut run =
                    RunQuestion { settings, units, ..RunQuestion::at(self.speed.clone()) };
                if !self.deflection.is_empty() {
                    run.deflections.clone_from(&self.deflection);
                }
                if is_all {
                    run.fields = fields::ALL[fields::SET..].to_vec();
                } else if !self.fields.is_empty() {
                    let named = self.fields.iter().map(|name| run_field(name));
                    run.fields = named.collect::<Result<_, _>>()?;
                }
                Ok(Question::Run(run))
            }
            Of::Size => {
                self.refuse_what_no_size_asks(&settings)?;
                let mut size = SizeQuestion {
                    settings,
                    units,
                    drawn: self.draw.drawn(),
                    ..SizeQuestion::default()
                };
                if !is_all && !self.fields.is_empty() {
                    let named = self.fields.iter().map(|name| size_field(name));
                    size.fields = named.collect::<Result<_, _>>()?;
                }
                Ok(Question::Size(size))
            }
        }
    }

    fn refuse_what_no_size_asks(&self, settings: &Settings) -> Result<(), Fault> {
        let refused = |key: &str, problem: &str, remedy: &str| {
            Err(Fault { key: key.into(), problem: problem.into(), remedy: remedy.into() })
        };
        if !self.speed.is_empty() || !self.deflection.is_empty() {
            let key = if self.speed.is_empty() { "run.deflection" } else { "run.speed" };
            let remedy = "leave it out: a duty of the boat says at which speeds it holds";
            return refused(key, "a size is not asked for at one speed or deflection", remedy);
        }
        if *settings != (Settings { model: settings.model, ..Settings::default() }) {
            let remedy =
                "leave out --method, --friction, --roughness, --hump and --spray, or ask --of run";
            return refused("run.of", "a size is found with the best estimate alone", remedy);
        }
        Ok(())
    }
}
