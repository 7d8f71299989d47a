using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// Gas that a step makes in an open vessel: how much, how fast over the addition, what limits it, which way out it needs, and, where it
/// is toxic, how it stands in the air of hood or room against the IDLH. Flammable gas against its lower limit: GasCloud. In a closed
/// vessel it counts in the pressure. Rules: docs/methods/gas.md.
/// </summary>
public sealed class GasScreen : IScreen
{
    /// <summary>Gas in L from which it is named. Common practice, no source.</summary>
    private const double WorthNamingL = 0.1;

    /// <summary>More gas in all than this in L is a caution. Common practice, no source.</summary>
    private const double MuchL = 5;

    /// <summary>Gas in L, and rate in L/min, above which it is a caution together. Common practice, no source.</summary>
    private const double SomeL = 1;
    private const double FastLPerMin = 0.2;

    /// <summary>Time in s in which an addition without a stated time counts as done. Common practice, no source.</summary>
    private const double AtOnceS = 60;

    /// <summary>Overpressure in Pa that a way out may hold back: a tenth of what lifts a ground joint. Common practice, no source.</summary>
    private const double WayOutPa = 1e3;

    /// <summary>Narrowest line worth using, in m. Common practice, no source.</summary>
    private const double NarrowestM = 6e-3;

    private const double LitresPerM3 = 1e3;

    /// <summary>Molar mass of air in kg/mol, for a gas nobody knows.</summary>
    private const double AirKgPerMol = 0.02896;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var made = OpenGas.Of(context);
        foreach (var (state, gases) in made)
        {
            OpenGas[] uncounted = [.. gases.Where(static gas => gas.Mol is null)];
            if (uncounted.Length > 0)
            {
                yield return Uncounted(state, uncounted, "makes");
            }

            OpenGas[] unlimited = [.. gases.Where(static gas => gas.Mol is null or > 0 && gas.Gas?.Idlh?.Ppm is not > 0 && MayHarm(gas.Gas))];
            if (unlimited.Length > 0)
            {
                yield return Unlimited(state, unlimited, "makes");
            }

            OpenGas[] counted = [.. gases.Where(static gas => gas.CountedMol > 0)];
            if (ReleaseLaw.VapourM3(counted.Sum(static gas => gas.CountedMol!.Value)) * LitresPerM3 >= WorthNamingL)
            {
                yield return Evolved(state, counted);
            }

            // what the step leads in besides stands in the same air
            foreach (var toxic in ToxicGas.Find(this, state, [.. counted, .. LedInGas.Of(state, context)], "gives off", context))
            {
                yield return toxic;
            }
        }

        foreach (var state in context.Walk.States)
        {
            if (LedInGas.Of(state, context) is { Count: > 0 } gases)
            {
                foreach (var finding in LedIn(state, gases, !made.ContainsKey(state), context))
                {
                    yield return finding;
                }
            }
        }

        foreach (var finding in Released(context))
        {
            yield return finding;
        }
    }

    /// <summary>What a step leads into an open vessel.</summary>
    private IEnumerable<Finding> LedIn(StepState state, IReadOnlyList<OpenGas> gases, bool alone, ScreeningContext context)
    {
        OpenGas[] harmful = [.. gases.Where(static gas => gas.Gas is { Idlh.Ppm: > 0 } || MayHarm(gas.Gas))];
        OpenGas[] uncounted = [.. harmful.Where(static gas => gas.Mol is null)];
        if (uncounted.Length > 0)
        {
            yield return Uncounted(state, uncounted, "leads in");
        }

        OpenGas[] unlimited = [.. harmful.Where(static gas => gas.Mol is null or > 0 && gas.Gas?.Idlh?.Ppm is not > 0)];
        if (unlimited.Length > 0)
        {
            var outsideHood = context.Plan.Place is not { IsHood: true };
            yield return Unlimited(state, unlimited, "leads in") with { Severity = outsideHood && Array.Exists(unlimited, static gas => IsToxic(gas.Gas)) ? Severity.Warning : Severity.Notice };
        }

        foreach (var toxic in alone ? ToxicGas.Find(this, state, [.. harmful.Where(static gas => gas.CountedMol > 0)], "gives off", context) : [])
        {
            yield return toxic;
        }
    }

    /// <summary>What an opening or a venting lets out: pressure has its own finding, here only what it does to people.</summary>
    private IEnumerable<Finding> Released(ScreeningContext context)
    {
        foreach (var (state, gases) in GasRelease.Of(context))
        {
            OpenGas[] harmful = [.. gases.Where(static gas => gas.Gas is { Idlh.Ppm: > 0 } || MayHarm(gas.Gas))];
            OpenGas[] uncounted = [.. harmful.Where(static gas => gas.Mol is null)];
            if (uncounted.Length > 0)
            {
                yield return Uncounted(state, uncounted, "lets out");
            }

            OpenGas[] unlimited = [.. harmful.Where(static gas => gas.Mol is null or > 0 && gas.Gas?.Idlh?.Ppm is not > 0)];
            if (unlimited.Length > 0)
            {
                yield return Unlimited(state, unlimited, "lets out");
            }

            foreach (var toxic in ToxicGas.Find(this, state, [.. harmful.Where(static gas => gas.CountedMol > 0)], "lets out", context))
            {
                yield return toxic;
            }
        }
    }

    internal static string[] Materials(OpenGas[] gases) => [.. gases.SelectMany(static gas => gas.Materials).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    private static string Does(StepState state, string verb, OpenGas[] gases) => verb switch
    {
        "makes" => $"makes {Names(gases)} in “{state.Vessel.Id}”",
        "leads in" => $"leads {Names(gases)} into “{state.Vessel.Id}”",
        _ => $"{verb} {Names(gases)} of “{state.Vessel.Id}”",
    };

    internal static string Names(OpenGas[] gases) => Wording.List(gases.Select(static gas => gas.Name).Distinct(StringComparer.Ordinal));

    /// <summary>False only for a gas that is listed as inert, or whose statements are on file and name nothing but fire, pressure and oxidation.</summary>
    private static bool MayHarm(Substance? gas) =>
        gas?.HazardStatements?.Value is { Count: > 0 } statements
            ? statements.Any(static statement => statement.Code.StartsWith("H3", StringComparison.Ordinal))
            : gas is null || !IsInert(gas);

    /// <summary>Nitrogen, the noble gases and the inert fluorinated gases (families.tsv): they choke nobody in these amounts.</summary>
    private static bool IsInert(Substance gas) =>
        FamilyTable.Default.Of(new PlanSubstance(gas.Key, gas.Identity.Name, gas)).Any(static family => family is "inert gases" or "inert fluorinated gases");

    /// <summary>Fatal or toxic if inhaled.</summary>
    private static bool IsToxic(Substance? gas) => gas?.HazardStatements?.Value.Any(static statement => statement.Code is "H330" or "H331") ?? false;

    private static Finding Uncounted(StepState state, OpenGas[] gases, string verb)
    {
        OpenGas[] toxic = [.. gases.Where(static gas => gas.Gas is { Idlh.Ppm: > 0 } known && MayHarm(known))];
        return new Finding
        {
            Code = "data.gas-not-counted",
            Hazard = Hazard.Data,
            Severity = Severity.Notice,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = Materials(gases),
            LeavesCheckUndone = toxic.Length > 0,
            Statement = $"Step {state.Step.Id} {Does(state, verb, gases)}, and how much is not known, because an amount is missing{(toxic.Length > 0 ? $": {Names(toxic)} cannot be held against what is immediately dangerous" : "")}.",
        };
    }

    private static Finding Unlimited(StepState state, OpenGas[] gases, string verb) => new()
    {
        Code = "data.gas-without-limit",
        Hazard = Hazard.Data,
        Severity = Severity.Notice,
        Steps = [state.Step.Id],
        Vessel = state.Vessel.Id,
        Materials = Materials(gases),
        Statement = $"Step {state.Step.Id} {Does(state, verb, gases)}, for which no concentration that is immediately dangerous to life and health is on file: what it does in the air is not checked.",
    };

    private static Finding Evolved(StepState state, OpenGas[] gases)
    {
        var mol = gases.Sum(static gas => gas.CountedMol!.Value);
        var litres = ReleaseLaw.VapourM3(mol) * LitresPerM3;
        var seconds = state.Step.OverS is > 0 and var over ? over : (double?)null;
        var rate = litres / ((seconds ?? AtOnceS) / 60);
        var mass = gases.Sum(static gas => gas.CountedMol!.Value * (gas.Gas?.Identity.MolarMassKgPerMol ?? AirKgPerMol)) / mol;
        var bore = GasDilution.BoreM(rate / LitresPerM3 / 60, WayOutPa, GasDilution.DensityKgPerM3(mass));
        var pace = seconds is null ? $"no time is stated, so that it may come within {Wording.Text(AtOnceS)} s" : $"{Wording.Figures(rate)} L/min over the addition";
        return new Finding
        {
            Code = "gas.evolved",
            Hazard = Hazard.Gas,
            Materials = Materials(gases),
            Severity = litres > MuchL || (litres > SomeL && rate > FastLPerMin && seconds is not null) ? Severity.Caution : Severity.Notice,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = $"Step {state.Step.Id} makes {UpTo(gases)} {Wording.Figures(litres)} L of {Names(gases)} in “{state.Vessel.Id}”, limited by {Wording.List(gases.Select(static gas => gas.Limit).Distinct(StringComparer.Ordinal))}; {pace}. It needs an open way out of at least {Wording.Figures(Math.Max(bore, NarrowestM) * 1000)} mm.",
            Evidence =
            [
                Findings.Number("gas in all", litres, "L", MuchL, "stoichiometry of the limiting partner, ideal gas at 25 °C", Quality.Estimated, "ideal-gas"),
                Findings.Number("gas flow", rate, "L/min", FastLPerMin, seconds is null ? "evenly over 60 s, for want of a stated time" : "evenly over the time of the step", seconds is null ? Quality.Assumed : Quality.Estimated, "ideal-gas", "common-practice"),
                Findings.Number("bore of the way out", bore * 1000, "mm", NarrowestM * 1000, "sharp-edged orifice at 10 mbar; lines not below 6 mm", Quality.Estimated, "crowl-louvar", "common-practice"),
            ],
        };
    }

    internal static string UpTo(OpenGas[] gases) => Array.Exists(gases, static gas => gas.Mol is null) ? "at least" : "up to";
}
