using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Solutions;

/// <summary>
/// Solutions and mixtures by the names chemists type (Data/solutions.tsv, Data/solution-mixtures.tsv). A name finds what it means,
/// never the pure gas or solid behind it; without a typed strength it finds the usual one and says that it is assumed.
/// </summary>
public sealed class SolutionCatalog
{
    private readonly FrozenDictionary<string, NamedSolution> byName;
    private readonly FrozenDictionary<string, NamedSolution> byBareName;
    private readonly FrozenDictionary<string, NamedSolution> byCas;
    private readonly FrozenDictionary<string, SolutionRow> rowOf;
    private readonly FrozenDictionary<(string, string), SolutionRow> rowOfPair;
    private readonly (string Spelling, bool IsName, NamedSolution Solution)[] searched;

    private SolutionCatalog()
    {
        var usual = SolutionRow.All.Select(static row => (Row: row, Solution: At(row, row.Strengths[0], row.AsksForStrength))).ToArray();
        var mixtures = EmbeddedTable.Rows("solution-mixtures.tsv").Select(ReadMixture).ToArray();
        var names = usual.SelectMany(static pair => pair.Row.Names.Append(pair.Row.Bare.Count == 0 ? pair.Row.Name : pair.Row.Names[0]).Select(name => (name, pair.Solution)))
            .Concat(mixtures.SelectMany(static mixture => mixture.Synonyms.Append(mixture.Name).Select(name => (name, mixture))))
            .Select(static pair => (Spelling: Catalog.Spelling(pair.name), pair.Item2))
            .DistinctBy(static pair => pair.Spelling, StringComparer.Ordinal);
        byName = names.ToFrozenDictionary(static pair => pair.Spelling, static pair => pair.Item2, StringComparer.Ordinal);
        byBareName = usual.SelectMany(static pair => pair.Row.Bare.Select(name => (Spelling: Catalog.Spelling(name), pair.Solution)))
            .DistinctBy(static pair => pair.Spelling, StringComparer.Ordinal)
            .ToFrozenDictionary(static pair => pair.Spelling, static pair => pair.Solution, StringComparer.Ordinal);
        byCas = usual.Select(static pair => pair.Solution).Concat(mixtures).Where(static solution => solution.Cas is not null)
            .ToFrozenDictionary(static solution => solution.Cas!, StringComparer.Ordinal);
        rowOf = SolutionRow.All.SelectMany(static row => row.Names.Concat(row.Bare).Append(row.Name).Select(name => (Spelling: Catalog.Spelling(name), row)))
            .DistinctBy(static pair => pair.Spelling, StringComparer.Ordinal)
            .ToFrozenDictionary(static pair => pair.Spelling, static pair => pair.row, StringComparer.Ordinal);
        rowOfPair = SolutionRow.All.DistinctBy(static row => (row.SoluteCas, row.SolventCas))
            .ToFrozenDictionary(static row => (row.SoluteCas, row.SolventCas));
        All =
        [
            .. SolutionRow.All.SelectMany(static row => row.Strengths.Select((strength, index) => At(row, strength, assumed: index == 0 && row.AsksForStrength))),
            .. mixtures,
        ];
        searched = [.. All.SelectMany(static solution => solution.Synonyms.Select(name => (Catalog.Spelling(name), false, solution)).Prepend((Catalog.Spelling(solution.Label), true, solution)))];
    }

    /// <summary>The solutions shipped with the engine, read once.</summary>
    public static SolutionCatalog Default { get; } = new();

    /// <summary>Every named solution at every usual strength, and every mixture, in the order of the tables.</summary>
    public IReadOnlyList<NamedSolution> All { get; }

    /// <summary>Every name that finds a solution without a typed strength, as <see cref="Catalog"/> compares names.</summary>
    internal IEnumerable<string> Spellings => byName.Keys;

    /// <summary>
    /// Finds what a name means: listed names without regard to case, spaces and hyphens; with a strength (<c>2 M HCl</c>,
    /// <c>NaOH 10 %</c>, <c>HCl (4 M in dioxane)</c>) the solution of that strength.
    /// </summary>
    public bool TryFind(string name, [NotNullWhen(true)] out NamedSolution? solution)
    {
        ArgumentNullException.ThrowIfNull(name);
        return byName.TryGetValue(Catalog.Spelling(name), out solution) || (solution = SolutionWords.Read(name) is { } words ? WithStrength(words) : null) is not null;
    }

    /// <summary>
    /// As <see cref="TryFind"/>, and also names the catalogue gives to a pure substance nobody sells, which in a procedure mean the
    /// solution on the shelf: nitric acid, hydrogen peroxide, n-butyllithium.
    /// </summary>
    public bool TryFindInProcedure(string name, [NotNullWhen(true)] out NamedSolution? solution)
    {
        ArgumentNullException.ThrowIfNull(name);
        return byBareName.TryGetValue(Catalog.Spelling(name), out solution) || TryFind(name, out solution);
    }

    /// <summary>Finds a solution that has a CAS number of its own (ammonium hydroxide 1336-21-6).</summary>
    public bool TryFindByCas(string cas, [NotNullWhen(true)] out NamedSolution? solution)
    {
        ArgumentNullException.ThrowIfNull(cas);
        return byCas.TryGetValue(cas.Trim(), out solution);
    }

    /// <summary>Solutions whose name, synonym or CAS number begins with the text, best first; a strength in the text is heeded.</summary>
    public IReadOnlyList<NamedSolution> Search(string text, int most)
    {
        ArgumentNullException.ThrowIfNull(text);
        var wanted = Catalog.Spelling(text);
        if (wanted.Length == 0 || most <= 0)
        {
            return [];
        }

        var found = new List<(int Rank, int Order, NamedSolution Solution)>();
        if (TryFind(text, out var meant))
        {
            found.Add((0, 0, meant));
        }

        for (var i = 0; i < searched.Length; i++)
        {
            var (spelling, isName, solution) = searched[i];
            if (spelling.StartsWith(wanted, StringComparison.Ordinal))
            {
                found.Add((isName ? 1 : 2, i, solution));
            }
            else if (isName && solution.Cas?.StartsWith(text.Trim(), StringComparison.Ordinal) == true)
            {
                found.Add((3, i, solution));
            }
        }

        return [.. found.OrderBy(static one => one.Rank).ThenBy(static one => one.Order).Select(static one => one.Solution).DistinctBy(static solution => solution.Label, StringComparer.Ordinal).Take(most)];
    }

    private static NamedSolution At(SolutionRow row, SolutionStrength strength, bool assumed) =>
        Of(Find(row.SoluteCas), Find(row.SolventCas), strength, row.MostMassFraction) is { } solution
            ? solution with { Name = row.Name, Synonyms = row.Names, Cas = row.Cas, StrengthAssumed = assumed, Note = row.Note }
            : throw new InvalidOperationException($"solutions.tsv: {row.Name} at {strength} has no density or is stronger than the row allows");

    /// <summary>A solute in a solvent; null where the strength is beyond what can be, or a molarity cannot be converted.</summary>
    private static NamedSolution? Of(Substance solute, Substance solvent, SolutionStrength strength, double mostMassFraction)
    {
        var curve = SolutionDensity.Of(solute.Identity.Cas, solvent.Identity.Cas);
        double? fraction = strength.IsMolar
            ? solute.Identity.MolarMassKgPerMol is { } molarMass ? curve?.MassFraction(strength.Value, molarMass) ?? Additive(solute, solvent, strength.Value, molarMass) : null
            : strength.Value;
        if (fraction is not { } w || !(w > 0) || w > mostMassFraction)
        {
            return null;
        }

        return new NamedSolution
        {
            Name = $"{solute.Identity.Name} in {solvent.Identity.Name}",
            Solute = solute,
            Solvent = solvent,
            Strength = strength,
            Parts = [new SolutionPart(solute, w), new SolutionPart(solvent, 1 - w)],
            DensityKgPerM3 = curve?.At(w) is { } density ? new Sourced<double>(density, SolutionDensity.Quality, [SolutionDensity.Source]) : null,
            DensityTemperatureK = curve?.TemperatureK ?? 293.15,
        };
    }

    private static double? Additive(Substance solute, Substance solvent, double molPerM3, double molarMass)
    {
        if (solvent.DensityKgPerM3?.Value is not { } density)
        {
            return null;
        }

        var room = solute.PhaseAt298K != Phase.Gas && solute.DensityKgPerM3?.Value is { } own ? molPerM3 * molarMass / own : 0;
        return room < 1 ? molPerM3 * molarMass / ((molPerM3 * molarMass) + ((1 - room) * density)) : null;
    }

    private static Substance Find(string cas) =>
        Catalog.Default.TryFindByCas(cas, out var substance) ? substance : throw new InvalidOperationException($"The catalogue has no {cas}, which a solution names.");

    private static NamedSolution ReadMixture(IReadOnlyDictionary<string, string> row)
    {
        var parts = EmbeddedTable.Entries(row["parts"])
            .Select(static part => part.Split('='))
            .Select(static pair => new SolutionPart(Find(pair[0]), double.Parse(pair[1], CultureInfo.InvariantCulture) / 100))
            .ToArray();
        return new NamedSolution
        {
            Name = row["name"],
            Synonyms = EmbeddedTable.Entries(row["names"]),
            Cas = row["cas"].Length == 0 ? null : row["cas"],
            Solute = row["counted"].Length == 0 ? null : Array.Find(parts, part => string.Equals(part.Substance.Identity.Cas, row["counted"], StringComparison.Ordinal))!.Substance,
            Parts = parts,
            DensityKgPerM3 = new Sourced<double>(double.Parse(row["density"], CultureInfo.InvariantCulture), SolutionDensity.Quality, [SolutionDensity.Source]),
            DensityTemperatureK = double.Parse(row["atC"], CultureInfo.InvariantCulture) + 273.15,
            StrengthAssumed = row["notice"] is "yes",
            Note = row["note"],
        };
    }

    private NamedSolution? WithStrength(SolutionWords words)
    {
        if (rowOf.TryGetValue(Catalog.Spelling(words.Rest), out var row) || (RowOfPair(words) is { } pair && (row = pair) is not null))
        {
            return words.For(row.SoluteCas) is { } strength && Of(Find(row.SoluteCas), Find(row.SolventCas), strength, row.MostMassFraction) is { } listed
                ? listed with { Name = row.Name, Synonyms = row.Names, Cas = row.Cas, Note = row.Note }
                : null;
        }

        return words.Solvent is { } solventName && SoluteOf(words.Solute) is { } solute && SolventOf(solventName) is { } solvent
            && words.For(solute.Key) is { } typed
            ? Of(solute, solvent, typed, 0.95)
            : null;
    }

    private SolutionRow? RowOfPair(SolutionWords words) =>
        SoluteOf(words.Solute) is { Identity.Cas: { } soluteCas } && (words.Solvent is null ? Find("7732-18-5") : SolventOf(words.Solvent)) is { Identity.Cas: { } solventCas }
            ? rowOfPair.GetValueOrDefault((soluteCas, solventCas))
            : null;

    private Substance? SoluteOf(string name) =>
        Catalog.Default.TryFindByName(name, out var substance) ? substance
        : rowOf.TryGetValue(Catalog.Spelling(name), out var row) ? Find(row.SoluteCas)
        : null;

    /// <summary>A solvent by name; of a cut of hydrocarbons, the part that stands for most of it.</summary>
    private Substance? SolventOf(string name) =>
        Catalog.Default.TryFindByName(name, out var substance) ? substance
        : string.Equals(Catalog.Spelling(name), "ether", StringComparison.Ordinal) ? Find("60-29-7")
        : byName.TryGetValue(Catalog.Spelling(name), out var mixture) && mixture.Solute is null ? mixture.Parts.MaxBy(static part => part.MassFraction)!.Substance
        : null;
}
