namespace PreApproval.Documents.Reading;

internal sealed partial class StructureReader
{
    private VesselEntry Vessel(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a vessel as an object", faults);
        VesselEntry vessel = Vessel(reader, "id", "give the vessel a short id that steps can name", MostOthers);
        reader.End();
        return vessel;
    }

    /// <summary>The members of a vessel, in a procedure or in the inventory; <paramref name="identifier"/> is the member that names it.</summary>
    private VesselEntry Vessel(ObjectReader reader, string identifier, string required, int mostParts)
    {
        return new VesselEntry
        {
            Id = reader.Text(identifier, TextLimit.Identifier, required) ?? "",
            Kind = reader.Text("kind", TextLimit.Line, "say what it is, for instance \"round-bottom flask\"") ?? "",
            Volume = reader.Quantity("volume", MemberUnits.VesselVolume),
            Rating = reader.Quantity("rating", MemberUnits.Pressure),
            RatingEvidence = reader.Text("ratingEvidence", TextLimit.Paragraphs),
            MaximumTemperature = reader.Quantity("maximumTemperature", MemberUnits.Temperature),
            Closure = reader.Text("closure", TextLimit.Line),
            InspectedOn = reader.Date("inspectedOn"),
            Relief = reader.Object("relief", Relief),
            GlassTube = reader.Object("glassTube", GlassTube),
            Parts = reader.List("parts", mostParts, VesselPart),
        };
    }

    private GlassTubeEntry GlassTube(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "the measures of a glass tube as an object", faults);
        var tube = new GlassTubeEntry(
            reader.Number("outsideDiameterMm", "the outside diameter in mm", "give the outside diameter in mm"),
            reader.Number("wallMm", "the wall in mm", "give the thickness of the wall in mm"),
            reader.Truth("annealed"));
        reader.End();
        return tube;
    }

    private ReliefEntry Relief(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a relief device as an object", faults);
        var relief = new ReliefEntry(
            reader.Word("device", Words.ReliefKinds, $"one of {Shown.Choice(Words.ReliefKinds.All)}"),
            reader.Quantity("set", MemberUnits.Pressure, "give the pressure at which it opens"));
        reader.End();
        return relief;
    }

    private VesselPartEntry VesselPart(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a part of a vessel as an object", faults);
        var part = new VesselPartEntry(
            reader.Text("part", TextLimit.Line, "say which part, for instance \"PTFE seal\"") ?? "",
            reader.Quantity("rating", MemberUnits.Pressure),
            reader.Quantity("maximumTemperature", MemberUnits.Temperature));
        reader.End();
        return part;
    }

    private StepEntry Step(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a step as an object", faults);
        var step = new StepEntry
        {
            Id = reader.Text("id", TextLimit.Identifier, "give the step an id, for instance \"1\"") ?? "",
            Action = reader.Word("action", Words.Actions, $"one of {Shown.Choice(Words.Actions.All)}"),
            Vessel = reader.Text("vessel", TextLimit.Identifier, "a step names the vessel it happens in") ?? "",
            Materials = reader.List("materials", MostMaterials, MaterialUse),
            Temperature = reader.Quantity("temperature", MemberUnits.Temperature),
            Duration = reader.Quantity("duration", MemberUnits.Time),
            Over = reader.Quantity("over", MemberUnits.Time),
            HeatSource = reader.Word("heatSource", Words.HeatSources),
            IndependentCutOut = reader.Truth("independentCutOut"),
            SurfaceTemperature = reader.Quantity("surfaceTemperature", MemberUnits.Temperature),
            Headspace = reader.Object("headspace", Gas),
            Closure = reader.Word("closure", Words.Closures),
            To = reader.Text("to", TextLimit.Identifier),
            Gas = reader.Object("gas", Gas),
            Pressure = reader.Quantity("pressure", MemberUnits.Pressure),
        };
        reader.End();
        return step;
    }

    private GasEntry Gas(JsonTree value, string path)
    {
        if (value is JsonTree.Record)
        {
            return new GasEntry(null, Substance(value, path));
        }

        if (value is JsonTree.Text)
        {
            return new GasEntry(ObjectReader.TextOf(value, path, TextLimit.Line, faults), null);
        }

        faults.Invalid(path, $"must be a gas: one of {Shown.Choice(Words.Headspaces)}, or a substance such as {{\"cas\": \"74-86-2\"}}; but is {value.Kind}");
        return new GasEntry(null, null);
    }

    private MaterialUseEntry MaterialUse(JsonTree value, string path)
    {
        if (value is JsonTree.Text)
        {
            return new MaterialUseEntry(Identifier(value, path), null, true);
        }

        var reader = new ObjectReader(value, path, "a material id, or an object with id and amount", faults);
        var use = new MaterialUseEntry(
            reader.Text("id", TextLimit.Identifier, "name the material by its id") ?? "",
            reader.Quantity("amount", MemberUnits.Amount),
            false);
        reader.End();
        return use;
    }

    private ReactionEntry Reaction(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "a reaction as an object", faults);
        var reaction = new ReactionEntry
        {
            Step = reader.Text("step", TextLimit.Identifier, "name the step it happens in by its id") ?? "",
            Consumes = reader.List("consumes", MostOthers, Consumption),
            Produces = reader.List("produces", MostOthers, Production),
            Heat = reader.Quantity("heat", MemberUnits.MolarHeat),
            Accumulation = reader.Number("accumulation", "a share from 0 to 1"),
            DecompositionOnset = reader.Quantity("decompositionOnset", MemberUnits.Temperature),
        };
        reader.End();
        return reaction;
    }

    private ConsumptionEntry Consumption(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "what is consumed as an object", faults);
        var consumption = new ConsumptionEntry(
            reader.Text("material", TextLimit.Identifier, "name the material by its id") ?? "",
            Equivalents(reader));
        reader.End();
        return consumption;
    }

    private ProductionEntry Production(JsonTree value, string path)
    {
        var reader = new ObjectReader(value, path, "what is produced as an object", faults);
        var production = new ProductionEntry(
            reader.Object("substance", Substance, "name what is formed as a substance"),
            Equivalents(reader),
            reader.Word("state", Words.States));
        reader.End();
        return production;
    }

    /// <summary>One where the number is unreadable: a placeholder that breaks no rule.</summary>
    private static double Equivalents(ObjectReader reader) =>
        reader.Number("equivalents", "the equivalents", "give the equivalents, relative to the limiting material") ?? 1;
}
