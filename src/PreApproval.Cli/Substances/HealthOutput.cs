using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary>Hazard statements, exposure limits, IDLH and carcinogen group. What is not on file says so: it is never "no hazard".</summary>
internal static class HealthOutput
{
    public const string Advice = "The limits of your place of work apply, and the supplier's safety data sheet wins over this list.";

    private const string NotOnFile = "not on file";

    public static JsonObject Statements(Substance substance) => substance.HazardStatements is not { } statements
        ? Missing()
        : Sourced(
            new JsonObject
            {
                ["status"] = statements.Value.Count == 0 ? "not classified" : "on file",
                ["statements"] = new JsonArray([.. statements.Value.Select(statement => new JsonObject
                {
                    ["code"] = statement.Code,
                    ["class"] = statement.HazardClass,
                    ["category"] = statement.Category,
                    ["text"] = statement.Text,
                })]),
            },
            statements.Quality,
            statements.Sources,
            statements.Note);

    public static JsonObject Limits(Substance substance) => substance.ExposureLimits is not { } limits
        ? Missing()
        : new JsonObject
        {
            ["status"] = "on file",
            ["skin"] = limits.Skin,
            ["limits"] = new JsonArray([.. InOrder(limits).Select(limit => Limit(limit, ReferenceEquals(limits.Of(limit.Kind), limit)))]),
        };

    public static JsonObject Idlh(Substance substance) => substance.Idlh is not { } idlh
        ? Missing()
        : Sourced(
            new JsonObject
            {
                ["status"] = "on file",
                ["ppm"] = JsonText.Number(idlh.Ppm),
                ["mgPerM3"] = JsonText.Number(idlh.MilligramPerM3),
                ["converted"] = Converted(idlh.IsPpmConverted, idlh.IsMassConverted),
                ["year"] = idlh.Year,
            },
            idlh.Quality,
            [idlh.Source],
            idlh.Note);

    public static JsonObject Carcinogen(Substance substance) => substance.Carcinogen is not { } carcinogen
        ? Missing()
        : Sourced(new JsonObject { ["status"] = "on file", ["iarcGroup"] = carcinogen.GroupName, ["year"] = carcinogen.Year }, carcinogen.Quality, [carcinogen.Source], carcinogen.Note);

    public static void Append(StringBuilder text, Substance substance)
    {
        text.AppendLine();
        AppendStatements(text, substance.HazardStatements);
        text.AppendLine();
        AppendLimits(text, substance.ExposureLimits);
        text.AppendLine();
        text.AppendLine(substance.Idlh is { } idlh
            ? Line($"IDLH: {Amount(idlh.Ppm, idlh.MilligramPerM3)} ({idlh.Year}, {ReportWords.Of(idlh.Quality)}{Tail(idlh.Note)}). {Catalog.Default.Reference(idlh.Source)}")
            : $"IDLH: {NotOnFile}");
        text.AppendLine(substance.Carcinogen is { } carcinogen
            ? Line($"IARC group: {carcinogen.GroupName} ({carcinogen.Year}, {ReportWords.Of(carcinogen.Quality)}{Tail(carcinogen.Note)}). {Catalog.Default.Reference(carcinogen.Source)}")
            : $"IARC group: {NotOnFile}");
        text.AppendLine().AppendLine(Advice);
    }

    private static void AppendStatements(StringBuilder text, Sourced<IReadOnlyList<HazardStatement>>? statements)
    {
        if (statements is null)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Hazard statements: {NotOnFile} (this does not mean: no hazard)");
            return;
        }

        string source = string.Join("; ", statements.Sources.Select(Catalog.Default.Reference));
        if (statements.Value.Count == 0)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Hazard statements: not classified, {statements.Note} ({ReportWords.Of(statements.Quality)}). {source}");
            return;
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"Hazard statements ({ReportWords.Of(statements.Quality)}{Tail(statements.Note)}). {source}");
        var table = new TextTable("code", "class and category", "statement");
        foreach (HazardStatement statement in statements.Value)
        {
            table.Add(statement.Code, $"{statement.HazardClass} {statement.Category}".TrimEnd(), statement.Text);
        }

        text.Append(table);
    }

    private static void AppendLimits(StringBuilder text, ExposureLimits? limits)
    {
        if (limits is null)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Exposure limits: {NotOnFile}");
            return;
        }

        var table = new TextTable("exposure limit", "ppm", "mg/m³", "skin", "set by", "year", "quality", "note", "source");
        foreach (ExposureLimit limit in InOrder(limits))
        {
            table.Add(
                $"{Word(limit.Kind)}{(ReferenceEquals(limits.Of(limit.Kind), limit) ? " (governs)" : "")}",
                Number(limit.Ppm, limit.IsPpmConverted),
                Number(limit.MilligramPerM3, limit.IsMassConverted),
                limit.Skin ? "skin" : "",
                limit.Jurisdiction,
                limit.Year.ToString(CultureInfo.InvariantCulture),
                ReportWords.Of(limit.Quality),
                string.Join("; ", new[] { Word(limit.Form), limit.Note }.Where(part => !string.IsNullOrEmpty(part))),
                Catalog.Default.Reference(limit.Source));
        }

        text.Append(table).AppendLine("~ converted at 25 °C, 24.465 L/mol");
    }

    /// <summary>By kind, the governing one first.</summary>
    private static IEnumerable<ExposureLimit> InOrder(ExposureLimits limits) =>
        limits.All.OrderBy(limit => limit.Kind).ThenByDescending(limit => ReferenceEquals(limits.Of(limit.Kind), limit));

    private static JsonObject Limit(ExposureLimit limit, bool governs) => Sourced(
        new JsonObject
        {
            ["kind"] = Word(limit.Kind),
            ["ppm"] = JsonText.Number(limit.Ppm),
            ["mgPerM3"] = JsonText.Number(limit.MilligramPerM3),
            ["converted"] = Converted(limit.IsPpmConverted, limit.IsMassConverted),
            ["form"] = limit.Form is AirborneForm.Vapour ? "vapour" : Word(limit.Form),
            ["skin"] = limit.Skin,
            ["jurisdiction"] = limit.Jurisdiction,
            ["year"] = limit.Year,
            ["governs"] = governs,
        },
        limit.Quality,
        [limit.Source],
        limit.Note);

    private static JsonObject Sourced(JsonObject json, Quality quality, IReadOnlyList<string> sources, string? note)
    {
        json["quality"] = ReportWords.Of(quality);
        json["source"] = new JsonArray([.. sources.Select(source => JsonValue.Create(Catalog.Default.Reference(source)))]);
        if (note is not null)
        {
            json["note"] = note;
        }

        return json;
    }

    private static JsonObject Missing() => new() { ["status"] = NotOnFile };

    private static string? Converted(bool ppm, bool mass) => ppm ? "ppm" : mass ? "mgPerM3" : null;

    private static string Amount(double? ppm, double? mass) => ppm is null ? $"{Rounded.Significant(mass, 3)} mg/m³" : $"{Rounded.Significant(ppm, 3)} ppm, {Rounded.Significant(mass, 3)} mg/m³";

    private static string Number(double? number, bool isConverted) => (isConverted ? "~" : "") + Rounded.Significant(number, isConverted ? 3 : Digits(number));

    /// <summary>Published figures keep their own digits.</summary>
    private static int Digits(double? number) => number is { } value ? value.ToString("G15", CultureInfo.InvariantCulture).Where(char.IsAsciiDigit).SkipWhile(digit => digit == '0').Count() : 1;

    private static string Word(LimitKind kind) => kind switch
    {
        LimitKind.TimeWeightedAverage => "TWA",
        LimitKind.ShortTerm => "STEL",
        LimitKind.Ceiling => "ceiling",
    };

    private static string Word(AirborneForm form) => form switch
    {
        AirborneForm.Vapour => "",
        AirborneForm.Particulate => "particulate",
        AirborneForm.Inhalable => "inhalable",
        AirborneForm.Thoracic => "thoracic",
        AirborneForm.Respirable => "respirable",
    };

    private static string Tail(string? note) => note is null ? "" : $"; {note}";

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
