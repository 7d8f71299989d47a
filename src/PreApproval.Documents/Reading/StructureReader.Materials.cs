using System.Text.RegularExpressions;

namespace PreApproval.Documents.Reading;

internal sealed partial class StructureReader
{
    /// <summary>Two to seven digits, two digits, a check digit.</summary>
    [GeneratedRegex("^[1-9][0-9]{1,6}-[0-9]{2}-[0-9]$", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex CasPattern { get; }

    /// <summary>A substance of a group's own list.</summary>
    public Substances.GroupSubstance? GroupSubstance(JsonTree root)
    {
        var reader = new ObjectReader(root, "", "a substance as an object", faults);
        var substance = new Substances.GroupSubstance
        {
            Name = reader.Text("name", TextLimit.Line, "give the substance a name")?.Trim() ?? "",
            Synonyms = reader.List("synonyms", Substances.GroupSubstance.MostSynonyms, (value, path) => ObjectReader.TextOf(value, path, TextLimit.Line, faults)?.Trim() ?? "") ?? [],
            Cas = Cas(reader),
            Smiles = reader.Text("smiles", TextLimit.Structure)?.Trim(),
            Properties = reader.Object("properties", Properties, "give the values and their source") ?? new SubstanceProperties(),
        };
        reader.End();
        return reader.IsObject ? substance : null;
    }

    private MaterialEntry Material(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a material as an object", faults);
        var material = new MaterialEntry
        {
            Id = reader.Text("id", TextLimit.Identifier, "give the material a short id that steps can name") ?? "",
            Substance = reader.Object("substance", Substance),
            Solution = reader.Object("solution", Solution),
            Mixture = reader.List("mixture", MostOthers, MixturePart, least: 1),
            Role = reader.Word("role", Words.Roles),
            Amount = reader.Quantity("amount", MemberUnits.Amount),
            Form = reader.Text("form", TextLimit.Line),
            OpenedOn = reader.Date("openedOn"),
            PeroxideTest = reader.Object("peroxideTest", PeroxideTest),
        };
        reader.End();
        if (!reader.IsObject)
        {
            return material;
        }

        if (!reader.Has("substance") && !reader.Has("mixture"))
        {
            faults.Invalid(reader.PathOf("substance"), "is missing: a material is a \"substance\" or a \"mixture\"");
        }

        if (reader.Has("substance") && reader.Has("mixture"))
        {
            faults.Invalid(reader.PathOf("mixture"), "stands beside \"substance\"; keep one of the two");
        }

        if (reader.Has("solution") && reader.Has("mixture"))
        {
            faults.Invalid(reader.PathOf("solution"), "belongs to a \"substance\", not to a \"mixture\"");
        }

        return material;
    }

    private SubstanceReference Substance(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a substance as an object, for instance {\"cas\": \"64-17-5\"}", faults);
        var substance = new SubstanceReference
        {
            Cas = Cas(reader),
            Name = reader.Text("name", TextLimit.Line),
            Smiles = reader.Text("smiles", TextLimit.Structure),
            Properties = reader.Object("properties", Properties),
        };
        reader.End();
        if (reader.IsObject && !reader.Has("cas") && !reader.Has("name") && !reader.Has("smiles"))
        {
            faults.Invalid(path, "names no substance: give \"cas\", \"name\" or \"smiles\"");
        }

        return substance;
    }

    private string? Cas(ObjectReader reader)
    {
        string? cas = reader.Text("cas", TextLimit.Identifier);
        if (cas is null || CasPattern.IsMatch(cas))
        {
            return cas;
        }

        faults.Invalid(reader.PathOf("cas"), $"\"{Shown.Text(cas)}\" does not look like a CAS number, for instance \"64-17-5\"");
        return null;
    }

    private SubstanceProperties Properties(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "properties as an object", faults);
        var properties = new SubstanceProperties
        {
            Formula = reader.Text("formula", TextLimit.Line),
            MolarMass = reader.Quantity("molarMass", MemberUnits.MolarMass),
            State = reader.Word("state", Words.States),
            Density = reader.Quantity("density", MemberUnits.Density),
            MeltingPoint = reader.Quantity("meltingPoint", MemberUnits.Temperature),
            BoilingPoint = reader.Quantity("boilingPoint", MemberUnits.Temperature),
            FlashPoint = reader.Quantity("flashPoint", MemberUnits.Temperature),
            Autoignition = reader.Quantity("autoignition", MemberUnits.Temperature),
            LowerFlammableLimit = reader.Quantity("lowerFlammableLimit", MemberUnits.VolumeFraction),
            UpperFlammableLimit = reader.Quantity("upperFlammableLimit", MemberUnits.VolumeFraction),
            VapourPressure = reader.Object("vapourPressure", Antoine),
            Source = reader.Text("source", TextLimit.Line, "say where the values come from"),
            Sources = reader.Object("sources", Sources),
        };
        reader.End();
        return properties;
    }

    private AntoineEntry Antoine(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "the coefficients of log10(p) = a − b/(t + c) as an object", faults);
        const string coefficient = "the equation needs a, b and c";
        var antoine = new AntoineEntry
        {
            A = reader.Number("a", "a coefficient", coefficient),
            B = reader.Number("b", "a coefficient", coefficient),
            C = reader.Number("c", "a coefficient", coefficient),
            PressureUnit = reader.Word("pressureUnit", Words.AntoinePressureUnits, "the coefficients belong to a unit of pressure"),
            TemperatureUnit = reader.Word("temperatureUnit", Words.AntoineTemperatureUnits, "the coefficients belong to a unit of temperature"),
            From = reader.Quantity("from", MemberUnits.Temperature, "give the lowest temperature it holds at"),
            To = reader.Quantity("to", MemberUnits.Temperature, "give the highest temperature it holds at"),
        };
        reader.End();
        return antoine;
    }

    private Dictionary<string, string> Sources(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "sources by the name of the value, as an object", faults);
        var sources = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (string member in SubstanceProperties.SourcedMembers)
        {
            if (reader.Text(member, TextLimit.Line) is { } source)
            {
                sources.Add(member, source);
            }
        }

        reader.End();
        return sources;
    }

    private SolutionEntry Solution(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a solution as an object", faults);
        var solution = new SolutionEntry(
            reader.Object("solvent", Substance, "name the solvent as a substance"),
            reader.Quantity("concentration", MemberUnits.Concentration, $"give it in {Shown.Choice(MemberUnits.Concentration.Symbols)}"));
        reader.End();
        return solution;
    }

    private MixturePartEntry MixturePart(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a part of a mixture as an object", faults);
        var part = new MixturePartEntry(
            reader.Object("substance", Substance, "name the component as a substance"),
            reader.Quantity("fraction", MemberUnits.Fraction, $"give it in {Shown.Choice(MemberUnits.Fraction.Symbols)}"));
        reader.End();
        return part;
    }

    private PeroxideTestEntry PeroxideTest(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a peroxide test as an object", faults);
        var test = new PeroxideTestEntry(
            reader.Date("on", "give the date of the test"),
            reader.Number("ppm", "the peroxide content in ppm", "give the result in ppm"));
        reader.End();
        return test;
    }
}
