using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents.Reporting;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Mixtures;

/// <summary>The answer of <c>mixture</c> as the JSON of the contract: °C, bar absolute, fractions; numbers unrounded, keys as given.</summary>
internal static class MixtureJson
{
    private const double PaPerBar = 1e5;

    public static string Word(LiquidModel model) => model switch
    {
        LiquidModel.Pure => "pure",
        LiquidModel.OneLiquid => "modified-raoult",
        LiquidModel.TwoLiquids => "modified-raoult-two-liquids",
        LiquidModel.MoreLiquids => "modified-raoult-more-liquids",
        LiquidModel.Bound => "immiscible-bound",
    };

    public static JsonObject Of(MixtureAnswer answer) => new()
    {
        ["activityCoefficients"] = Keyed(answer, answer.ActivityCoefficients),
        ["bubblePressureBarAbs"] = JsonText.Number(answer.Bubble.PressurePaAbs / PaPerBar),
        ["vapourMoleFractions"] = answer.Bubble.VapourMoleFractions is { } vapour ? Keyed(answer, [.. vapour.Select(value => (double?)value)]) : null,
        ["flashPointC"] = JsonText.Number(answer.Flash.FlashPointK - UnitTable.CelsiusZeroK),
        ["lowerFlammableLimitFraction"] = JsonText.Number(answer.Limits.Lower.Fraction),
        ["upperFlammableLimitFraction"] = JsonText.Number(answer.Limits.Upper.Fraction),
        ["models"] = Models(answer),
        ["warnings"] = new JsonArray([.. answer.Warnings.Select(warning => JsonValue.Create(warning))]),
    };

    private static JsonObject Models(MixtureAnswer answer)
    {
        EquilibriumPoint bubble = answer.Bubble;
        JsonObject pressure = Model(bubble.Model is { } model ? Word(model) : null, bubble.Quality, [.. bubble.Sources.Select(Catalog.Default.Reference)], bubble.Because);
        if (bubble.Liquids.Count > 0)
        {
            pressure["liquids"] = new JsonArray([.. bubble.Liquids.Select(liquid => Liquid(answer, liquid.MoleFractions, liquid.Share))]);
        }

        FlashPointEstimate flash = answer.Flash;
        JsonObject flashModel = Model(flash.Liquid is null ? null : FlashWord(flash), flash.Quality, flash.Sources, flash.Because);
        if (flash.LowerExplosionPointK is { } explosion)
        {
            flashModel["lowerExplosionPointC"] = explosion - UnitTable.CelsiusZeroK;
        }

        JsonObject lower = Model(answer.Limits.Lower.Fraction is null ? null : "le-chatelier at the temperature, of the combustible part of the vapour", answer.Limits.Lower.Quality, answer.Limits.Lower.Sources, answer.Limits.Lower.Because);
        lower["combustibleShareOfVapour"] = JsonText.Number(answer.Limits.CombustibleShare);
        lower["limitingOxygenFraction"] = JsonText.Number(answer.Limits.LimitingOxygenFraction);
        lower["neverFlammableBelowShare"] = JsonText.Number(answer.Limits.NeverFlammableBelowShare);
        return new JsonObject
        {
            ["activityCoefficients"] = answer.ActivityCoefficients.All(value => value is null) ? null : answer.Question.Identifiers.Count == 1 ? "pure" : "original-unifac",
            ["bubblePressure"] = pressure,
            ["flashPoint"] = flashModel,
            ["lowerFlammableLimit"] = lower,
            ["upperFlammableLimit"] = Model(answer.Limits.Upper.Fraction is null ? null : "le-chatelier at the temperature, of the combustible part of the vapour", answer.Limits.Upper.Quality, answer.Limits.Upper.Sources, answer.Limits.Upper.Because),
        };
    }

    public static string FlashWord(FlashPointEstimate flash) => flash switch
    {
        { Published: true } => "published value",
        { Liquid: LiquidModel.Pure } => "lower flammable limit at saturation",
        { FromMeasuredPair: true } => "liaw with van-laar",
        { Liquid: LiquidModel.TwoLiquids } => "liaw with original-unifac, two liquids",
        { Liquid: LiquidModel.MoreLiquids } => "liaw with original-unifac, more than two liquids",
        { Liquid: LiquidModel.Bound } => "liaw, lower bound",
        _ => "liaw with original-unifac",
    };

    private static JsonObject Model(string? name, Quality quality, IReadOnlyList<string> sources, string? because)
    {
        var json = new JsonObject { ["model"] = name };
        if (name is not null)
        {
            json["quality"] = ReportWords.Of(quality);
            json["source"] = new JsonArray([.. sources.Select(source => JsonValue.Create(source))]);
        }

        if (because is not null)
        {
            json["because"] = because;
        }

        return json;
    }

    private static JsonObject Liquid(MixtureAnswer answer, IReadOnlyList<double> fractions, double share)
    {
        var composition = new JsonObject();
        foreach ((int place, int index) in answer.Question.Mixture.MixingParts.Index())
        {
            composition[answer.Question.Identifiers[index]] = fractions[place];
        }

        return new JsonObject { ["molarShare"] = share, ["moleFractions"] = composition };
    }

    private static JsonObject Keyed(MixtureAnswer answer, IReadOnlyList<double?> values)
    {
        var json = new JsonObject();
        foreach ((int index, string identifier) in answer.Question.Identifiers.Index())
        {
            json[identifier] = JsonText.Number(values[index]);
        }

        return json;
    }
}
