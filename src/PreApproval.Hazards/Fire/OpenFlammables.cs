using System.Globalization;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// The distance to the flash point at every open step, as the policy sets it (BG RCI on TRGS 721: a pure liquid 5 K, a mixture 15 K); for a halogenated
/// liquid no distance is valid. A notice, unless there is an ignition source or a large volume. Rules: docs/methods/flash-margin.md.
/// </summary>
internal static partial class OpenFlammables
{
    /// <summary>What is counted at every open step.</summary>
    public const string BelowFlashPoint = "distance below the flash point";

    /// <summary>Every open step with something near its flash point.</summary>
    /// <param name="context">The plan.</param>
    /// <param name="together">Remembers the flash points of mixtures. They cost the most here and are asked for only where no liquid is near its own.</param>
    public static OpenLiquid[] Of(ScreeningContext context, ContentsFlashPoint together)
    {
        var opens = new List<OpenLiquid>();
        foreach (var state in context.Walk.States)
        {
            if (state.Sealed)
            {
                continue;
            }

            // as long as nothing changes, the same is near
            if (opens.Count > 0 && opens[^1] is { State: var before } last && ReferenceEquals(before.Contents, state.Contents) && before.TemperatureK == state.TemperatureK)
            {
                opens.Add(last.At(state));
                continue;
            }

            var near = Near(state, context.Policy);
            var hidden = Hidden(state);
            var flash = near.Length > 0 || hidden.Length > 0 ? null : Together(state, together, context.Policy);
            if (near.Length > 0 || hidden.Length > 0 || flash is not null)
            {
                opens.Add(new OpenLiquid(state, near, flash, hidden));
            }
        }

        return [.. opens];
    }

    public static IEnumerable<Finding> Find(ScreeningContext context, OpenLiquid[] opens, ContentsFlashPoint together)
    {
        var heated = new List<Finding>();
        foreach (var group in Grouping.Of(opens, static open => open.State.Heated, static (one, other) => string.Equals(one.State.Vessel.Id, other.State.Vessel.Id, StringComparison.Ordinal) && one.State.TemperatureStep == other.State.TemperatureStep))
        {
            var finding = Heated(group, context, together);
            heated.Add(finding with { ClearedBy = Offers(group, context, together) });
        }

        foreach (var finding in NoticesOnce.Of(heated))
        {
            yield return finding;
        }

        // what is carried from flask to flask is one matter
        foreach (var group in Grouping.Of(opens, static open => !open.State.Heated && open.Burning.Length > 0, static (one, other) => string.Equals(one.BurningKeys, other.BurningKeys, StringComparison.Ordinal)))
        {
            yield return Standing(group, context);
        }
    }

    /// <summary>Volume in m³ of a liquid of known amount and density; 0 otherwise.</summary>
    public static double VolumeM3(Content content) =>
        content.Mol * content.Substance.Known?.Identity.MolarMassKgPerMol / content.Substance.Known?.DensityKgPerM3?.Value ?? 0;

    private static FlashPointEstimate? Together(StepState state, ContentsFlashPoint together, Policy policy) => together.NearTo(state, policy.FlashMarginMixtureK, FireThresholds.FlammableUpToK);

    /// <summary>
    /// A fifth or more of the liquid, by amount, is not past a flash point of its own: only then do the liquids together tell more than the pure ones. Common practice, no source.
    /// </summary>
    private static bool IsDiluted(OpenLiquid open)
    {
        var (all, apart) = (0.0, 0.0);
        for (var index = 0; index < open.State.Contents.Count; index++)
        {
            if (open.State.Contents[index] is { Spent: false, Mol: > 0 and var mol, Substance.Known.PhaseAt298K: Phase.Liquid } content)
            {
                all += mol;
                apart += Array.IndexOf(open.Flammables, content) < 0 ? mol : 0;
            }
        }

        return apart >= 0.2 * all;
    }

    private static Finding Heated(OpenLiquid[] group, ScreeningContext context, ContentsFlashPoint together)
    {
        var open = group.MaxBy(static one => one.State.TemperatureK)!;
        var state = open.State;

        if (open.Together is null && open.Hidden.Length == 0 && IsDiluted(open))
        {
            open = open.With(Together(state, together, context.Policy));
        }

        // a place that is not stated is no hood
        var bench = context.Plan.Place is not { IsHood: true };
        var large = open.VolumeM3 > FireThresholds.LargeOpenVolumeM3;
        var ignites = state.HeatSource is HeatSource.HeatGun or HeatSource.Oven;
        var flashes = open.Flammables.Length > 0 || open.Together is not null;
        return Finding("fire.heated-openly", group, open, context.Policy) with
        {
            Severity = !flashes ? Severity.Notice : ignites || (large && bench) ? Severity.Warning : large || bench ? Severity.Caution : Severity.Notice,
            Statement = $"{Names(open.Burning)} in the open “{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)} {(flashes ? Nearness(open, context.Policy) : "gives a vapour that burns although no flash point is found")}: keep ignition sources away{(ignites ? $"; {(state.HeatSource == HeatSource.Oven ? "an oven" : "a heat gun")} is one" : "")}{Large(open, large)}{Halogenated(open)}.",
        };
    }

    private static Finding Standing(OpenLiquid[] group, ScreeningContext context)
    {
        var open = Nearest(group, context.Policy);
        var large = open.VolumeM3 > FireThresholds.LargeOpenVolumeM3;
        var state = open.State;
        var how = LeastBelowK(open) is { } least
            ? least <= 0 ? $"{Wording.Text(Math.Round(-least))} K above a flash point" : $"only {Wording.Text(Math.Round(least))} K below a flash point"
            : "with a vapour that burns although no flash point is found";
        var vessels = new List<string>();
        foreach (var one in group)
        {
            if (!vessels.Contains(one.State.Vessel.Id))
            {
                vessels.Add(one.State.Vessel.Id);
            }
        }

        return Finding("fire.flash-margin", group, open, context.Policy) with
        {
            Vessel = vessels.Count == 1 ? vessels[0] : null,
            Severity = large && context.Plan.Place is not { IsHood: true } ? Severity.Caution : Severity.Notice,
            Statement = $"{Names(open.Burning)} {(Array.Exists(open.Burning, content => !string.Equals(content.Substance.Key, open.Burning[0].Substance.Key, StringComparison.Ordinal)) ? "stand" : "stands")} open in {Wording.List(vessels.ConvertAll(static vessel => $"“{vessel}”"))} at {Wording.Celsius(state.TemperatureK)}, {how}: keep ignition sources away{Large(open, large)}{Halogenated(open)}.",
        };
    }

    /// <summary>The step with the least margin, of equal ones that with the most liquid.</summary>
    private static OpenLiquid Nearest(OpenLiquid[] group, Policy policy)
    {
        var (nearest, least, volume) = (group[0], Margin(group[0], policy), group[0].VolumeM3);
        foreach (var open in group)
        {
            var (own, ownVolume) = (Margin(open, policy), open.VolumeM3);
            if (own < least || (own == least && ownVolume > volume))
            {
                (nearest, least, volume) = (open, own, ownVolume);
            }
        }

        return nearest;
    }

    /// <summary>The least distance to a flash point beyond the wanted one, in K; 0 where there is none.</summary>
    private static double Margin(OpenLiquid open, Policy policy)
    {
        double? least = null;
        foreach (var content in open.Flammables)
        {
            least = Math.Min(least ?? double.PositiveInfinity, content.Substance.Known!.FlashPointK!.Governing.Value - open.State.TemperatureK - policy.FlashMarginK);
        }

        return open.Together is { FlashPointK: { } together }
            ? Math.Min(least ?? double.PositiveInfinity, together - open.State.TemperatureK - policy.FlashMarginMixtureK)
            : least ?? 0;
    }

    private static Finding Finding(string code, OpenLiquid[] group, OpenLiquid open, Policy policy) => new()
    {
        Code = code,
        Hazard = Hazard.Fire,
        Severity = Severity.Notice,
        Steps = StepIds.Of(group, static one => one.State),
        Vessel = open.State.Vessel.Id,
        Materials = MaterialIds.Of(open.Burning),
        Statement = "",
        Evidence = Margins(open, policy),
    };

    private static string Names(Content[] contents) =>
        Wording.Capital(Wording.List(contents.Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)));

    private static string Large(OpenLiquid open, bool large) => large ? $"; about {Wording.Text(Math.Round(open.VolumeM3 * 1e5) * 10)} mL is a large open volume" : "";

    private static string Halogenated(OpenLiquid open)
    {
        if (open.Hidden.Length == 0 && !Array.Exists(open.Flammables, static content => Combustion.IsHalogenated(content.Substance.Known!)))
        {
            return "";
        }

        string[] names = [.. open.Hidden.Concat(open.Flammables.Where(static content => Combustion.IsHalogenated(content.Substance.Known!))).Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        return $"; with {Wording.List(names)} in it no distance to a flash point is a valid margin";
    }

    private static Content[] Near(StepState state, Policy policy)
    {
        var count = 0;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            count += IsNear(state.Contents[index], state, policy) ? 1 : 0;
        }

        var near = count == 0 ? [] : new Content[count];
        for (var index = state.Contents.Count - 1; count > 0; index--)
        {
            if (IsNear(state.Contents[index], state, policy))
            {
                near[--count] = state.Contents[index];
            }
        }

        return near;
    }

    private static bool IsNear(Content content, StepState state, Policy policy) =>
        content is { Spent: false, Substance.Known: { NonFlammable: not { Value: true }, FlashPointK.Governing.Value: <= FireThresholds.FlammableUpToK } known }
        && !FlashMargin.IsKept(policy, known.FlashPointK.Governing.Value, state.TemperatureK, mixture: false, Combustion.IsHalogenated(known));

    private static Content[] Hidden(StepState state)
    {
        List<Content>? hidden = null;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (IsHidden(state.Contents[index]))
            {
                (hidden ??= []).Add(state.Contents[index]);
            }
        }

        return hidden is null ? [] : [.. hidden];
    }

    private static bool IsWithin(Content content, double temperatureK, Policy policy) => !FlashMargin.IsKept(policy, content.Substance.Known!.FlashPointK!.Governing.Value, temperatureK, mixture: false, halogenated: false);

    /// <summary>Halogenated, no flash point, and yet a flammable range (dichloromethane: 13 to 22 %).</summary>
    private static bool IsHidden(Content content) =>
        content is { Spent: false, Substance.Known: { PhaseAt298K: Phase.Liquid, FlashPointK: null, LowerFlammableLimit: not null, NonFlammable: not { Value: true } } known } && Combustion.IsHalogenated(known);

    private static Clearing[] Offers(OpenLiquid[] group, ScreeningContext context, ContentsFlashPoint together)
    {
        if (group[0].State.TemperatureStep is not { } setBy || Array.Exists(group, static open => open.Hidden.Length > 0 || Array.Exists(open.Flammables, static content => Combustion.IsHalogenated(content.Substance.Known!))))
        {
            return [];
        }

        var celsius = Math.Floor(1e-9 + Wording.InCelsius(group.SelectMany(open => Distances(open, context.Policy).Select(distance => open.State.TemperatureK + distance.BelowK - distance.WantedK)).Min()));
        if (celsius + 273.15 < Walk.RoomTemperatureK)
        {
            return [];
        }

        var offer = new Clearing("set temperature", $"/steps/{setBy.ToString(CultureInfo.InvariantCulture)}/temperature", celsius, "°C", null);
        // the trial is of this check alone: the steps hold what they held, colder
        return Array.Exists(group, open => IsNear(open.State with { TemperatureK = celsius + 273.15 }, together, context.Policy)) ? [] : [offer];
    }

    private static bool IsNear(StepState state, ContentsFlashPoint together, Policy policy) => Near(state, policy).Length > 0 || Together(state, together, policy) is not null;
}
