using PreApproval.Hazards.Health;
using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// Severity of an encounter as planned. Dosing, cooling and an open vessel lower the rows that can be answered that way;
/// confinement, scale and much gas raise it. Every change is said in words. Rules: docs/methods/encounters.md (common
/// practice, no source).
/// </summary>
internal static class MeetingSeverity
{
    private const double CoolUpToK = 283.15;
    private const double SmallBelowMol = 1e-3;

    // a few milligrams: heat that a drop of solvent takes up, gas of a few millilitres
    private const double TraceBelowMol = 1e-4;
    private const double LargeAboveMol = 0.5;

    /// <summary>Gas in L below which a dosed addition to an open vessel is no grave matter: over the ten minutes of a dosing a tenth of the flow that asks for a look. Common practice, no source.</summary>
    private const double SmallGasL = 0.2;

    /// <param name="meeting">Who meets whom.</param>
    /// <param name="state">Where.</param>
    /// <param name="dosedCold">True where one of them was dosed cold in an earlier step and now they only stand, no warmer than the room.</param>
    public static (Severity Severity, IReadOnlyList<string> Because) Of(Meeting meeting, StepState state, bool dosedCold)
    {
        var because = new List<string>();
        if (meeting.Encounter.NeedsFuel && !Fuel.IsThere(meeting.A, state))
        {
            because.Add("lower because nothing that burns is named beside it: keep organic matter, paper and dust away from it");
            return (Severity.Notice, because);
        }

        var severity = Lowered(meeting, state, dosedCold, because);
        var limiting = meeting.LimitingEquivalents;
        if (meeting.Encounter.Floor is not null && limiting < SmallBelowMol && severity < Severity.Notice)
        {
            severity++;
            because.Add("lower for less than 1 mmol");
            if (limiting < TraceBelowMol && severity < Severity.Caution)
            {
                severity++;
                because.Add("and lower again for less than 0.1 mmol");
            }
        }

        if (meeting.CountedEquivalents > LargeAboveMol && !IsHeldByBalloon(meeting, state) && meeting.Encounter.Severity < Severity.Notice && severity > Severity.Danger)
        {
            severity--;
            because.Add("raised for more than 0.5 mol");
        }

        if (Exceeded(meeting, state) is { } limit && severity > Severity.Danger)
        {
            severity--;
            because.Add("raised because " + limit);
        }

        // confinement makes every encounter worse: what gives heat alone boils its liquid
        if (state.Sealed && severity > Severity.Danger)
        {
            severity--;
            because.Add("raised because the vessel is closed");
        }

        if (meeting.FreedShare < 1)
        {
            because.Add(meeting.FreedShare > 0 ? $"the base beside it keeps part of the {meeting.Encounter.Gas} as its salt" : $"the base beside it keeps the {meeting.Encounter.Gas} as its salt");
        }

        return (Gas(meeting, state, severity, because), because);
    }

    /// <summary>True where one partner is the gas of a balloon, which holds less than what raises a row: as if that amount were stated.</summary>
    private static bool IsHeldByBalloon(Meeting meeting, StepState state) =>
        state is { Vent: Closure.Balloon, Headspace: Headspace.Gas { Substance: var gas } }
        && meeting.Everyone.Any(content => content is { MaterialId: null, Mol: null } && string.Equals(content.Substance.Key, gas.Key, StringComparison.Ordinal))
        && IdealGas.Mol(AtmospherePa, Confinement.VentScreen.BalloonM3 + (state.Vessel.VolumeM3 ?? 0), state.TemperatureK) <= LargeAboveMol;

    private static string? Exceeded(Meeting meeting, StepState state)
    {
        var encounter = meeting.Encounter;
        if (encounter.MassUpToKg is { } most && !(meeting.A.Sum(static content => content.Mol * (content.Substance.Known?.Identity.MolarMassKgPerMol ?? Energy.EnergeticProfile.Of(content.Substance)?.MolarMassKgPerMol) ?? double.PositiveInfinity) <= most))
        {
            return $"there may be more than {Wording.Figures(most * 1000)} g";
        }

        return state.Step.DurationS >= encounter.TimeUpToS && !Intended(meeting, state) ? $"it stands for {Wording.Figures(encounter.TimeUpToS!.Value / 3600)} h or longer" : null;
    }

    private static Severity Lowered(Meeting meeting, StepState state, bool dosedCold, List<string> because)
    {
        var start = meeting.Encounter.Severity;
        if (meeting.Encounter.Floor is not { } floor || floor <= start || state.Sealed)
        {
            return start;
        }

        // only for rows that name the mass up to which it holds
        if (dosedCold && meeting.Encounter.MassUpToKg is not null && Exceeded(meeting, state) is null)
        {
            because.Add("lower because little of it was dosed cold and open before and now stands no warmer than the room");
            return floor;
        }

        var intended = Intended(meeting, state);
        var dosed = state.Step.OverS >= ControlNeeds.DosedFromS;
        var cool = state.TemperatureK <= (intended ? Walk.WarmK : CoolUpToK);
        if (dosed && cool)
        {
            because.Add(intended ? "lower because it is intended, dosed and open" : "lower because it is dosed, cooled and open");
            return floor;
        }

        if (intended && (dosed || cool))
        {
            because.Add(dosed ? "one step lower because it is intended and dosed" : "one step lower because it is intended and kept at or below 30 °C");
            return start + 1;
        }

        return start;
    }

    /// <summary>Declared: one of the partners is consumed by a reaction of this step.</summary>
    private static bool Intended(Meeting meeting, StepState state) =>
        state.Reactions.SelectMany(static reaction => reaction.Consumes)
            .Any(consumed => meeting.Everyone.Any(content => string.Equals(content.MaterialId, consumed.MaterialId, StringComparison.Ordinal)));

    /// <summary>The partners met in an earlier step, which carries its own finding, and are neither added to nor heated.</summary>
    private static bool IsOnlyStirred(Meeting meeting, StepState state) =>
        state is { Heated: false, Step.Action: StepAction.Stir or StepAction.Hold } && state.Step.Materials.Count == 0 && meeting.B.Count > 0;

    private static Severity Gas(Meeting meeting, StepState state, Severity severity, List<string> because)
    {
        if (meeting.CountedGasMol is not > 0)
        {
            return severity;
        }

        // an amount that is missing lowers nothing
        var litres = meeting.CountedGasMol.Value * AirConcentration.MolarVolumeLPerMol;
        if (meeting.GasMol is not null && litres < SmallGasL && meeting.Encounter.Floor is not null && !state.Sealed && severity < Severity.Caution && (state.Step.OverS >= ControlNeeds.DosedFromS || IsOnlyStirred(meeting, state)))
        {
            because.Add($"lower for less than {Wording.Figures(SmallGasL)} L of gas {(IsOnlyStirred(meeting, state) ? "from what was mixed before and is only stirred" : "from a dosed addition to an open vessel")}");
            return Severity.Caution;
        }

        var perMinute = state.Step.OverS is > 0 and var over ? litres / (over / 60) : (double?)null;
        var least = meeting.Encounter.Severity == Severity.Notice ? Severity.Caution : Severity.Warning;
        if ((litres > 5 || (litres > 1 && perMinute > 0.2)) && severity > least)
        {
            because.Add($"raised for about {Wording.Figures(litres)} L of gas");
            return least;
        }

        return severity;
    }
}
