using System.Globalization;
using System.Runtime.InteropServices;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Health;

/// <summary>Rows of exposure limits: substance, kind, ppm or mg/m³ or both, who set it and when, form in air, skin note, source.</summary>
internal static class ExposureLimitRows
{
    private const int OldestYear = 1940;
    private const int NewestYear = 2100;
    private const double MostPpm = 100_000;
    private const double MostMilligramPerM3 = 200_000;

    // Publications round both figures, often to one digit (0.2 ppm and 1.5 mg/m³ of phosphorus trichloride): further apart is a slip.
    private const double MostDisagreement = 0.4;

    /// <summary>A concentration in both units as far as they are known.</summary>
    [StructLayout(LayoutKind.Auto)]
    internal readonly record struct Concentration(double? Ppm, double? MilligramPerM3, bool IsPpmConverted, bool IsMassConverted);

    public static void Read(string file, string text, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        foreach (var row in TsvRow.Read(file, text, faults))
        {
            Read(row, drafts, references, faults);
        }
    }

    /// <summary>A year that an exposure limit, an IDLH or an evaluation can have.</summary>
    public static bool TryYear(TsvRow row, List<string> faults, out int year)
    {
        if (int.TryParse(row["year"], NumberStyles.None, CultureInfo.InvariantCulture, out year) && year is >= OldestYear and <= NewestYear)
        {
            return true;
        }

        faults.Add(row.Fault($"year '{row["year"]}' is blank or absurd"));
        return false;
    }

    /// <summary>The concentration of a row; the missing unit is converted where the form and the molar mass allow.</summary>
    public static bool TryConcentration(TsvRow row, SubstanceDraft draft, AirborneForm form, List<string> faults, out Concentration concentration)
    {
        concentration = default;
        if (!TryValue(row, "ppm", MostPpm, faults, out var ppm) || !TryValue(row, "mg_per_m3", MostMilligramPerM3, faults, out var mass))
        {
            return false;
        }

        if (ppm is null && mass is null)
        {
            faults.Add(row.Fault("neither ppm nor mg_per_m3 is given"));
            return false;
        }

        if (ppm is not null && form is not AirborneForm.Vapour)
        {
            faults.Add(row.Fault("a particulate has no ppm"));
            return false;
        }

        if (draft.Identity.MolarMassKgPerMol is not { } molarMass)
        {
            concentration = new Concentration(ppm, mass, IsPpmConverted: false, IsMassConverted: false);
            return true;
        }

        if (ppm is { } fraction)
        {
            var converted = AirConcentration.MilligramPerM3(fraction, molarMass);
            if (Math.Abs(((mass ?? converted) / converted) - 1) > MostDisagreement)
            {
                faults.Add(row.Fault($"{fraction} ppm is {converted:G3} mg/m³, not {mass}"));
                return false;
            }

            concentration = new Concentration(ppm, mass ?? converted, IsPpmConverted: false, IsMassConverted: mass is null);
            return true;
        }

        // What is a solid at room temperature is met as dust: its mass is not turned into ppm.
        var convertible = form is AirborneForm.Vapour && draft.Phase is not Phase.Solid && !draft.Involatile;
        concentration = new Concentration(convertible ? AirConcentration.Ppm(mass!.Value, molarMass) : null, mass, convertible, IsMassConverted: false);
        return true;
    }

    private static void Read(TsvRow row, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        if (!row.TryDraft(drafts, faults, out var draft) || !row.TrySource(references, faults, out var source) || !row.TryQuality(faults, out var quality)
            || !TryYear(row, faults, out var year))
        {
            return;
        }

        if (row.Optional("jurisdiction") is not { } jurisdiction)
        {
            faults.Add(row.Fault("the jurisdiction is blank"));
            return;
        }

        LimitKind? kind = row["kind"] switch
        {
            "TWA" => LimitKind.TimeWeightedAverage,
            "STEL" => LimitKind.ShortTerm,
            "ceiling" => LimitKind.Ceiling,
            _ => null,
        };
        AirborneForm? form = row["form"] switch
        {
            "vapour" => AirborneForm.Vapour,
            "particulate" => AirborneForm.Particulate,
            "inhalable" => AirborneForm.Inhalable,
            "thoracic" => AirborneForm.Thoracic,
            "respirable" => AirborneForm.Respirable,
            _ => null,
        };
        if (kind is null || form is null || row["skin"] is not ("yes" or "no"))
        {
            faults.Add(row.Fault($"kind '{row["kind"]}', form '{row["form"]}' or skin '{row["skin"]}' is not known"));
            return;
        }

        if (!TryConcentration(row, draft, form.Value, faults, out var air))
        {
            return;
        }

        var limit = new ExposureLimit
        {
            Kind = kind.Value,
            Ppm = air.Ppm,
            MilligramPerM3 = air.MilligramPerM3,
            IsPpmConverted = air.IsPpmConverted,
            IsMassConverted = air.IsMassConverted,
            Form = form.Value,
            Skin = row["skin"] is "yes",
            Jurisdiction = jurisdiction,
            Year = year,
            Quality = quality,
            Source = source,
            Note = row.Optional("note"),
        };
        Add(limit, row, draft.Health, faults);
    }

    private static void Add(ExposureLimit limit, TsvRow row, HealthDraft health, List<string> faults)
    {
        var limits = health.Limits ??= [];
        foreach (var other in limits)
        {
            if (other.Year != limit.Year || other.Form != limit.Form || !string.Equals(other.Jurisdiction, limit.Jurisdiction, StringComparison.Ordinal))
            {
                continue;
            }

            if (other.Kind == limit.Kind)
            {
                faults.Add(row.Fault($"{row["cas"]} already has this limit"));
            }
            else if (limit.Kind is LimitKind.TimeWeightedAverage != (other.Kind is LimitKind.TimeWeightedAverage))
            {
                var (average, peak) = limit.Kind is LimitKind.TimeWeightedAverage ? (limit, other) : (other, limit);
                if ((peak.MilligramPerM3 ?? peak.Ppm) < (average.MilligramPerM3 ?? average.Ppm))
                {
                    faults.Add(row.Fault("the short-term limit is below the average over the shift"));
                }
            }
        }

        limits.Add(limit);
    }

    private static bool TryValue(TsvRow row, string column, double most, List<string> faults, out double? value)
    {
        value = null;
        if (row.Optional(column) is null)
        {
            return true;
        }

        var number = row.Number(column, faults);
        if (!(number > 0 && number <= most))
        {
            if (!double.IsNaN(number))
            {
                faults.Add(row.Fault($"{column} {number} is not above 0 and at most {most}"));
            }

            return false;
        }

        value = number;
        return true;
    }
}
