using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// Dry ice and liquefied gases: shut in, behind a narrow way out, or in the air of the room; and gases of the air condensed by a trap
/// that is colder than they boil. Method and thresholds: docs/methods/cryogens-and-vacuum.md.
/// </summary>
public sealed class CryogenScreen : IScreen
{
    /// <summary>Gas in m³ that a balloon takes up (2 L). Common practice, no source.</summary>
    private const double BalloonM3 = 2e-3;

    /// <summary>Volume fractions of carbon dioxide: eight hours, fifteen minutes, and immediately dangerous (NIOSH Pocket Guide).</summary>
    private const double CarbonDioxideLimit = 0.005;
    private const double CarbonDioxideShort = 0.03;
    private const double CarbonDioxideIdlh = 0.04;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var materials = context.Plan.Materials.Where(Cryogens.IsCryogen).Select(static material => material.Id).ToHashSet(StringComparer.Ordinal);
        return [.. Confined(context, materials), .. CondensedAir(context, materials), .. InTheRoom(context, materials)];
    }

    private IEnumerable<Finding> Confined(ScreeningContext context, HashSet<string> materials)
    {
        var groups = context.Walk.States.Where(static state => state.Sealed || state.Vent is not null)
            .Where(state => HoldsCondensed(state, materials))
            .SelectMany(state => state.Contents.Where(content => Cryogens.IsCondensed(content, state, materials)).Select(content => (State: state, Content: content)))
            .GroupBy(static pair => (pair.State.Vessel.Id, pair.Content.Substance.Key, Closed: pair.State.Sealed));
        foreach (var group in groups)
        {
            // the finding stands from the step that shuts it in
            var worst = group.MaxBy(static pair => (pair.Content.Mol ?? double.MaxValue, -pair.State.Index));
            string[] steps = [.. group.Select(static pair => pair.State.Step.Id).Distinct(StringComparer.Ordinal)];
            var finding = worst.State.Sealed ? Closed(worst.State, worst.Content, steps, context) : Narrow(worst.State, worst.Content, steps);
            if (finding is not null)
            {
                yield return finding;
            }
        }
    }

    private static bool HoldsCondensed(StepState state, HashSet<string> materials)
    {
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (Cryogens.IsCondensed(state.Contents[index], state, materials))
            {
                return true;
            }
        }

        return false;
    }

    private Finding? Closed(StepState state, Content content, string[] steps, ScreeningContext context)
    {
        var name = Cryogens.Name(content.Substance);
        var rating = GoverningRating.For(state.Vessel, state.VesselIndex, Cryogens.BenchK);
        var evidence = new List<Evidence>();
        var words = "it all becomes gas on warming";
        if (content.Mol is { } mol)
        {
            var gas = AirDisplacement.GasVolumeM3(mol, Cryogens.BenchK);
            evidence.Add(Findings.Number("gas at 25 °C and 1.01325 bar", gas * 1e3, "L", null, "ideal gas", Quality.Estimated, "ideal-gas"));
            words = $"it makes {Findings.Litres(gas)} of gas on warming";
            if (state.Vessel.VolumeM3 is { } volume)
            {
                var (pa, ideal, condenses) = Cryogens.PressurePa(content.Substance.Known!, mol, volume, Cryogens.BenchK);
                if (pa <= rating.QuietLimitPaGauge(state.Vessel, context.Policy))
                {
                    return null;
                }

                evidence.Insert(0, Findings.Number(
                    "pressure at 25 °C", pa / 1e5, "bar", (rating.PaGauge ?? 0) / 1e5,
                    condenses ? $"vapour pressure of the liquid that forms; as an ideal gas it would be {Wording.Figures(ideal / 1e5)} bar" : "ideal gas in the empty vessel", Quality.Estimated, "ideal-gas"));
                words += $", {Wording.Figures(pa / 1e5)} bar at 25 °C{(condenses ? " with liquid still in it" : "")} against {(rating.PaGauge is { } rated ? Wording.BarGauge(rated) : "no stated rating")}";
            }
        }

        var finding = new Finding
        {
            Code = "pressure.cryogen-closed",
            Hazard = Hazard.Pressure,
            Severity = Severity.Danger,
            Steps = steps,
            Vessel = state.Vessel.Id,
            Materials = Findings.Ids([content]),
            Statement = $"“{state.Vessel.Id}” is closed over {name}: {words}. Leave a way out until it has gone.",
            Evidence = evidence,
        };
        var needed = evidence.Count < 2 ? double.PositiveInfinity : Math.Ceiling(evidence[0].Value / GoverningRating.WarningShare(state.Vessel, context.Policy));
        return context.IsTrial || !RatingCredibility.IsWorthOffering(state.Vessel.Kind, needed)
            ? finding
            : finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("rating", rating.Path, needed, "bar(g)", null)) };
    }

    private static Finding? Narrow(StepState state, Content content, string[] steps)
    {
        var gas = content.Mol is { } mol ? AirDisplacement.GasVolumeM3(mol, Cryogens.BenchK) : (double?)null;
        var balloon = state.Vent == Closure.Balloon;
        if (balloon && gas <= BalloonM3)
        {
            return null;
        }

        var way = state.Vent switch
        {
            Closure.Balloon => "a balloon",
            Closure.Needle => "a needle",
            _ => "a bubbler or drying tube",
        };
        return new Finding
        {
            Code = "pressure.cryogen-narrow-vent",
            Hazard = Hazard.Pressure,
            Severity = state.Vent == Closure.Bubbler ? Severity.Caution : Severity.Warning,
            Steps = steps,
            Vessel = state.Vessel.Id,
            Materials = Findings.Ids([content]),
            Statement = $"{Wording.Capital(Cryogens.Name(content.Substance))} in “{state.Vessel.Id}” makes {(gas is { } m3 ? Findings.Litres(m3) + " of" : "much")} gas and has only {way} as a way out, which {(balloon ? "holds about 2 L" : "ices up and blocks")}: leave the neck open.",
            Evidence = gas is { } made ? [Findings.Number("gas at 25 °C and 1.01325 bar", made * 1e3, "L", balloon ? BalloonM3 * 1e3 : null, "ideal gas", Quality.Estimated, "ideal-gas", "common-practice")] : [],
        };
    }

    /// <summary>A trap colder than oxygen or argon boils, open to them.</summary>
    private IEnumerable<Finding> CondensedAir(ScreeningContext context, HashSet<string> materials)
    {
        var groups = context.Walk.States
            .Select(static state => (State: state, Gas: Condensing(state)))
            .Where(pair => pair.Gas is not null && !HoldsCondensed(pair.State, materials))
            .GroupBy(static pair => (pair.State.Vessel.Id, pair.Gas!.Value.Name, pair.State.Sealed));
        foreach (var group in groups)
        {
            var (state, condensing) = group.First();
            var (name, boilsK, molPerM3) = condensing!.Value;
            var shutIn = state.Sealed;
            var meant = !shutIn && group.All(static pair => pair.State.Step.Action == StepAction.Degas);
            var oxygen = name is "oxygen";
            var gasPerLiquid = AirDisplacement.GasVolumeM3(molPerM3, Cryogens.BenchK);
            var setBy = state.TemperatureStep;
            var finding = new Finding
            {
                Code = shutIn ? "pressure.condensed-gas-shut-in" : oxygen ? "gas.oxygen-condenses" : "gas.inert-gas-condenses",
                Hazard = shutIn ? Hazard.Pressure : Hazard.Gas,
                Severity = meant ? Severity.Caution : shutIn || oxygen ? Severity.Danger : Severity.Warning,
                Steps = [.. group.Select(static pair => pair.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = state.Vessel.Id,
                Statement = shutIn
                    ? $"“{state.Vessel.Id}” was closed at {Wording.Celsius(state.Closing!.TemperatureK)} with {name} over it, which condenses below {Wording.Celsius(boilsK)}: each mL of it shut in becomes {Wording.Figures(gasPerLiquid)} mL of gas on warming."
                    : meant
                        ? $"“{state.Vessel.Id}” is frozen at {Wording.Celsius(state.TemperatureK)}: close the tap before cooling and open it only to the pump, or {name} condenses in it (below {Wording.Celsius(boilsK)})."
                        : $"“{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)} is open to {(oxygen ? "air" : name)}: liquid {name} collects below {Wording.Celsius(boilsK)}{(oxygen ? " and explodes with organic matter" : " and bursts what is closed over it")}; pump on it, and never close it cold.",
                Evidence =
                [
                    Findings.Number("temperature of the cold vessel", Wording.InCelsius(state.TemperatureK), "°C", Wording.InCelsius(boilsK), $"normal boiling point of {name}", Quality.Measured, "prudent-practices", "reference-equations") with { Worse = WorseWhen.Lower },
                    Findings.Number("gas from one volume of liquid", gasPerLiquid, "1", null, "density of the liquid at its boiling point, ideal gas at 25 °C", Quality.Estimated, "ideal-gas"),
                ],
            };
            yield return context.IsTrial || setBy is null || meant
                ? finding
                : finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("set temperature", Findings.Step(setBy.Value, "temperature"), Math.Ceiling(Wording.InCelsius(boilsK)) + 1, "°C", null)) };
        }
    }

    /// <summary>The gas that condenses: liquid at its boiling point O₂ 1141, Ar 1395, N₂ 806 kg/m³ (equations of state named in <see cref="Cryogens"/>).</summary>
    private static (string Name, double BoilsK, double MolPerM3)? Condensing(StepState state)
    {
        var atK = state.Closing?.TemperatureK ?? state.TemperatureK;
        var open = state.Closing is null || (state.Closing.AtAtmosphere && state.Closing.StepIndex == state.Index);
        if (!open)
        {
            return null;
        }

        return state.Headspace switch
        {
            Headspace.Air when atK < Cryogens.OxygenBoilsK => ("oxygen", Cryogens.OxygenBoilsK, 1141 / 0.0319988),
            Headspace.Gas { Substance.Known.Identity.Cas: Cryogens.Argon } when atK < Cryogens.ArgonBoilsK => ("argon", Cryogens.ArgonBoilsK, 1395 / 0.039948),
            Headspace.Gas { Substance.Known.Identity.Cas: Cryogens.Nitrogen } when atK < Cryogens.NitrogenBoilsK => ("nitrogen", Cryogens.NitrogenBoilsK, 806 / 0.0280134),
            Headspace.Air or Headspace.Vacuum or Headspace.Gas => null,
            _ => throw new System.Diagnostics.UnreachableException(),
        };
    }

    private static IEnumerable<Finding> InTheRoom(ScreeningContext context, HashSet<string> materials)
    {
        if (materials.Count == 0)
        {
            yield break;
        }

        var used = context.Walk.Balance.Where(static entry => entry.ChargedMol > 0).ToDictionary(static entry => entry.Substance.Key, static entry => entry.ChargedMol, StringComparer.Ordinal);
        var charged = context.Plan.Materials.Where(material => materials.Contains(material.Id) && context.Walk.UsedMaterials.Contains(material.Id))
            .Select(static material => AmountConversion.Parts(material.Composition)[0].Substance)
            .DistinctBy(static substance => substance.Key, StringComparer.Ordinal)
            .Where(substance => used.ContainsKey(substance.Key))
            .Select(substance => (Substance: substance, M3: AirDisplacement.GasVolumeM3(used[substance.Key], Cryogens.BenchK)))
            .ToArray();
        if (charged.Length == 0)
        {
            yield break;
        }

        var total = charged.Sum(static entry => entry.M3);
        string[] ids = [.. materials.Where(context.Walk.UsedMaterials.Contains).Order(StringComparer.Ordinal)];
        var steps = context.Plan.Steps.Where(step => step.Materials.Any(use => materials.Contains(use.MaterialId))).Select(static step => step.Id).ToArray();
        var gases = Wording.List(charged.Select(static entry => Cryogens.Name(entry.Substance)));
        if (context.Plan.Place?.RoomVolumeM3 is not { } room || room <= 0)
        {
            yield return new Finding
            {
                Code = "data.room-volume",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Steps = steps,
                Materials = ids,
                Statement = $"{Wording.Capital(gases)} makes {Findings.Litres(total)} of gas; what that leaves of the oxygen in the room cannot be computed without the room's volume.",
            };
            yield break;
        }

        var oxygen = AirDisplacement.OxygenLeft(total, room);
        var dioxide = charged.Where(static entry => entry.Substance.Known?.Identity.Cas is Cryogens.CarbonDioxide).Sum(static entry => entry.M3) / room;
        Severity? severity = oxygen < AirDisplacement.LeaveOxygen || dioxide >= CarbonDioxideIdlh ? Severity.Danger
            : oxygen < AirDisplacement.AlarmOxygen || dioxide >= CarbonDioxideShort ? Severity.Warning
            : dioxide >= CarbonDioxideLimit ? Severity.Caution
            : null;
        if (severity is null)
        {
            yield break;
        }

        var evidence = new List<Evidence>
        {
            Findings.Number("oxygen left in the room", oxygen, "fraction", AirDisplacement.AlarmOxygen, "20.9 % times the share of air that stays; all evaporates, no ventilation, evenly mixed", Quality.Estimated, "displacement-law", "cfr-1910-146") with { Worse = WorseWhen.Lower },
        };
        if (dioxide > 0)
        {
            evidence.Add(Findings.Number("carbon dioxide in the room", dioxide, "fraction", CarbonDioxideShort, "ideal gas, no ventilation, evenly mixed", Quality.Estimated, "ideal-gas", "niosh-pocket-guide"));
        }

        yield return new Finding
        {
            Code = "gas.displaces-air",
            Hazard = Hazard.Gas,
            Severity = severity.Value,
            Steps = steps,
            Materials = ids,
            Statement = $"{Wording.Capital(gases)} makes {Findings.Litres(total)} of gas: in a closed room of {Wording.Figures(room)} m³ it leaves {Wording.Figures(oxygen * 100)} vol% oxygen (alarm at 19.5){(dioxide > 0 ? $" and {Wording.Figures(dioxide * 100)} vol% carbon dioxide" : "")}; ventilate, and carry an oxygen alarm.",
            Evidence = evidence,
        };
    }
}
