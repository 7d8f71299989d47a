using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>
/// Every row of the table fires on a pair that textbooks and handbooks warn of, and stays silent on a near neighbour of it.
/// Pairs chosen by hand from general inorganic and organic chemistry; severities after Bretherick's Handbook, from memory.
/// </summary>
public sealed class EncounterTableTests
{
    /// <summary>Row, pair that must fire, neighbour that must not.</summary>
    public static TheoryData<string, string, string> Cases { get; } = [.. Examples.Select(static row => (row.Row, row.Fires, row.Neighbour))];

    private static IEnumerable<(string Row, string Fires, string Neighbour)> Examples =>
        TestTable.Rows("encounter-examples.tsv").Select(static cells => (cells[0], cells[1], cells[2]));

    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_PairOfTheRow_FiresIt(string row, string firing, string neighbour)
    {
        _ = neighbour;
        Assert.Contains(row, Codes(firing), StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_NearNeighbour_DoesNotFireTheRow(string row, string firing, string neighbour)
    {
        _ = firing;
        Assert.DoesNotContain(row, Codes(neighbour), StringComparer.Ordinal);
    }

    /// <summary>A row that another covers, or that its example does not need, could be deleted unseen.</summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_TableWithoutTheRow_FailsItsCase(string row, string firing, string neighbour)
    {
        _ = neighbour;
        var states = Walk.Follow(PlanFor(firing), Policy.Default).States;
        var without = new EncounterIndex(EncounterTable.All.Where(entry => !string.Equals(entry.Key, row, StringComparison.Ordinal)));

        Assert.Contains(row, Keys(EncounterIndex.Default), StringComparer.Ordinal);
        Assert.DoesNotContain(row, Keys(without), StringComparer.Ordinal);
        Assert.True(Keys(without).Count < Keys(EncounterIndex.Default).Count);

        List<string> Keys(EncounterIndex table) => [.. states.SelectMany(state => Meeting.At(state, table)).Select(static meeting => meeting.Encounter.Key).Distinct(StringComparer.Ordinal)];
    }

    [Fact]
    public void Table_NoTwoRows_SayTheSame() =>
        Assert.Empty(EncounterTable.All.GroupBy(static row => (string.Join('|', new[] { row.A, row.B, row.C ?? "" }.Order(StringComparer.Ordinal)), row.AboveK, row.BelowK)).Where(static group => group.Count() > 1).Select(static group => group.First().Key));

    [Fact]
    public void Table_EveryRow_HasACase()
    {
        Assert.Equal(EncounterTable.All.Select(static row => row.Key).Order(StringComparer.Ordinal), Cases.Select(static row => row.Data.Item1).Order(StringComparer.Ordinal));
        Assert.True(EncounterTable.All.Count >= 300);
        Assert.True(FamilyTable.Default.All.Count >= 60);
    }

    [Fact]
    public void Table_EverySourceAndFamily_IsKnown()
    {
        Assert.All(EncounterTable.All, static row => Assert.All(row.Sources, static source => Assert.True(References.IsOwn(source), source)));
        Assert.All(EncounterTable.All.SelectMany(static row => new[] { row.A, row.B, row.C }).OfType<string>(), family => Assert.Contains(family, FamilyTable.Default.All.Concat(EncounterTable.Pseudo), StringComparer.Ordinal));
    }

    private static List<string> Codes(string mixture) =>
        [.. Screener.Screen(PlanFor(mixture), Policy.Default).Findings.Select(static finding => finding.Code[(finding.Code.IndexOf('.', StringComparison.Ordinal) + 1)..])];

    /// <summary>Words in capitals: what is done, what the vessel is of, or a vessel still full of air when hydrogen comes in.</summary>
    private static Plan PlanFor(string mixture)
    {
        var parts = mixture.Split(" @ ");
        var celsius = parts.Length > 1 ? double.Parse(parts[1], CultureInfo.InvariantCulture) : 20;
        var names = parts[0].Split(" + ").ToList();
        var air = names.Remove("AIR");
        var unpurged = names.Remove("UNPURGED");
        var kind = names.Remove("JOINT") ? "flask with ground joints"
            : names.Remove("STEEL") ? "steel autoclave"
            : names.Remove("ALUMINIUM") ? "aluminium pan"
            : Flask().Kind;
        var closure = names.Remove("BRASS") ? "brass valve" : names.Remove("PTFE") ? "screw plug, PTFE seal" : null;
        StepAction? treatment = names.Remove("GRIND") ? StepAction.Grind : names.Remove("DRY") ? StepAction.Dry : names.Remove("CONCENTRATE") ? StepAction.Concentrate : names.Remove("STORE") ? StepAction.Store : null;
        if (unpurged)
        {
            names.Remove("hydrogen");
        }

        var charge = Step("1", StepAction.Charge, "flask", celsius, [.. names]) with { Headspace = air || unpurged ? new Headspace.Air() : Under("nitrogen") };
        Step[] later = unpurged ? [Step("2", StepAction.Pressurise, "flask", celsius) with { Gas = Substance("hydrogen"), PressurePaAbs = 5e5 }]
            : treatment is { } action ? [Step("2", action, "flask", celsius)]
            : [];
        return new Plan
        {
            Materials = [.. names.Select(static name => Of(name, name, Mmol(10)))],
            Vessels = [Flask() with { Kind = kind, Closure = closure }],
            Steps = [charge, .. later],
        };
    }
}
