using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Cli.Vessels;

/// <summary>States of a closed vessel as the JSON of the contract: bar absolute, numbers unrounded, keys as given.</summary>
internal static class VesselJson
{
    private const double PaPerBar = 1e5;

    public static string Word(VesselModel model) => model switch
    {
        VesselModel.ModifiedRaoult => "modified-raoult",
        VesselModel.PengRobinson => "peng-robinson",
        VesselModel.ModifiedUnifac => "modified-unifac",
        VesselModel.Psrk => "psrk",
        VesselModel.ImmiscibleBound => "immiscible-bound",
    };

    public static string Word(VesselPhase phase) => phase switch
    {
        VesselPhase.TwoPhase => "two-phase",
        VesselPhase.Vapour => "vapour",
        VesselPhase.LiquidFull => "liquid-full",
        VesselPhase.Supercritical => "supercritical",
    };

    public static JsonObject State(VesselState state, double temperatureC, IReadOnlyDictionary<string, string> identifiers) => new()
    {
        ["temperatureC"] = temperatureC,
        ["models"] = new JsonArray([.. state.Models.Select(model => Model(model, identifiers))]),
        ["governing"] = new JsonObject
        {
            ["model"] = Word(state.Governing.Model),
            ["phase"] = state.Governing.Phase is { } phase ? Word(phase) : null,
            ["pressureBarAbs"] = JsonText.Number(state.Governing.PressurePaAbs / PaPerBar),
            ["because"] = state.Because,
        },
    };

    private static JsonObject Model(ModelState model, IReadOnlyDictionary<string, string> identifiers)
    {
        var json = new JsonObject
        {
            ["model"] = Word(model.Model),
            ["phase"] = model.Phase is { } phase ? Word(phase) : null,
            ["pressureBarAbs"] = JsonText.Number(model.PressurePaAbs / PaPerBar),
            ["partialPressuresBar"] = Keyed(model.PartialPressuresPa, identifiers, PaPerBar),
            ["liquidVolumeFraction"] = JsonText.Number(model.LiquidVolumeFraction),
            ["liquidMoleFractions"] = Keyed(model.LiquidMoleFractions, identifiers, 1),
            ["activityCoefficients"] = Keyed(model.ActivityCoefficients, identifiers, 1),
            ["source"] = new JsonArray([.. model.Sources.Select(source => JsonValue.Create(Catalog.Default.Reference(source)))]),
            ["quality"] = ReportWords.Of(model.Quality),
        };
        if (model.Because is { } because)
        {
            json["because"] = because;
        }

        return json;
    }

    private static JsonObject Keyed(IReadOnlyDictionary<string, double> values, IReadOnlyDictionary<string, string> identifiers, double divisor)
    {
        var json = new JsonObject();
        foreach ((string key, double value) in values)
        {
            json[identifiers.GetValueOrDefault(key, key)] = JsonText.Number(value / divisor);
        }

        return json;
    }
}
