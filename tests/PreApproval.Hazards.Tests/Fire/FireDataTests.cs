using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>The tables of the fire checks name what the catalogue and the families know, and every row has a source.</summary>
public sealed class FireDataTests
{
    [Theory]
    [InlineData("gas-groups.tsv")]
    [InlineData("poor-conductors.tsv")]
    [InlineData("limiting-oxygen.tsv")]
    public void Table_EveryRow_IsASubstanceOfTheCatalogueWithASource(string file)
    {
        var rows = EmbeddedTable.Rows(file);

        Assert.Equal(rows.Count, rows.Select(static row => row["cas"]).Distinct(StringComparer.Ordinal).Count);
        Assert.All(rows, static row =>
        {
            Assert.True(Catalog.Default.TryFindByCas(row["cas"], out var known), row["name"]);
            Assert.Equal(row["name"], known!.Identity.Name);
            Assert.All(EmbeddedTable.Entries(row["sources"]), static key => Assert.NotEmpty(References.Full(key)));
            Assert.Equal("assumed", row["quality"]);
        });
    }

    [Fact]
    public void Bans_EveryFamily_HasMembers()
    {
        var families = EmbeddedTable.Rows("families.tsv").Select(static row => row["family"]).ToHashSet(StringComparer.Ordinal);

        Assert.All(ExtinguishingAgents.Bans, ban => Assert.Contains(ban.Family, families, StringComparer.Ordinal));
        Assert.NotEmpty(FamilyTable.Default.Of(Plans.PlanOf.Substance("sodium")));
    }

    /// <summary>What reacts with water reacts with the water in foam and in wet chemical too.</summary>
    [Fact]
    public void Bans_WaterForbidden_ForbidsFoamAndWetChemicalAtTheSameSeverity()
    {
        var water = Forbidden(PreApproval.Hazards.Plans.Agent.Water);

        Assert.NotEmpty(water);
        Assert.Equal(water, Forbidden(PreApproval.Hazards.Plans.Agent.Foam), StringComparer.Ordinal);
        Assert.Equal(water, Forbidden(PreApproval.Hazards.Plans.Agent.WetChemical), StringComparer.Ordinal);

        static string[] Forbidden(PreApproval.Hazards.Plans.Agent agent) =>
            [.. ExtinguishingAgents.Bans.Where(ban => ban.Agent == agent && ban.Severity <= Severity.Warning).Select(static ban => $"{ban.Family} {ban.Severity}").Order(StringComparer.Ordinal)];
    }

    /// <summary>Limiting oxygen is below that of air, and where both can be had the estimate z·LFL is within a third of the value on file.</summary>
    [Fact]
    public void LimitingOxygen_OnFile_IsNearTheEstimateForOrganicFuels()
    {
        string[] names = ["n-butane", "propane", "n-pentane", "n-hexane", "benzene", "toluene", "methanol", "ethanol", "acetone", "ethyl acetate"];

        Assert.All(names, static name =>
        {
            var known = Plans.PlanOf.Substance(name).Known!;
            var estimate = FlammableLimits.LimitingOxygen(Combustion.OxygenPerMol(known)!.Value, known.LowerFlammableLimit!.Governing.Value);
            Assert.InRange(LimitingOxygen.Of(known)!.Value, estimate * 0.66, estimate * 1.5);
        });
    }
}
