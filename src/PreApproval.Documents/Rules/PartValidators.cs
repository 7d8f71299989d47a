using System.Globalization;
using FluentValidation;
using FluentValidation.Results;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Documents.Rules;

internal sealed class SubstanceValidator : AbstractValidator<SubstanceReference?>
{
    public SubstanceValidator()
    {
        RuleFor(substance => substance!.Cas)
            .Must(cas => cas is null || CasNumber.IsValid(cas))
            .WithMessage((_, cas) => string.Create(CultureInfo.InvariantCulture,
                $"{cas} has a wrong check digit: the last digit should be {CasCheckDigit.Of(cas!)}. Compare it with the label or the safety data sheet"));
        RuleFor(substance => substance!.Name)
            .Must((substance, _) => SubstanceResolution.NamedOtherwise(substance!, Catalog.Default) is null)
            .WithMessage((substance, name) => Contradiction(substance!, name!, SubstanceResolution.NamedOtherwise(substance!, Catalog.Default)!));
        RuleFor(substance => substance!.Properties).SetValidator(new PropertiesValidator()!);
    }

    private static string Contradiction(SubstanceReference substance, string name, Substance other)
    {
        string listed = Catalog.Default.TryFindByCas(substance.Cas!, out Substance? byCas) ? byCas.Identity.Name : substance.Cas!;
        string number = other.Identity.Cas is { } cas ? $" ({cas})" : "";
        return $"\"{Shown.Text(name)}\" is another substance{number} than {substance.Cas}, which is {listed}; correct the name or the CAS number";
    }
}

internal sealed class PropertiesValidator : AbstractValidator<SubstanceProperties?>
{
    /// <summary>How far boiling point and vapour pressure may disagree, as for the catalogue's own data.</summary>
    private const double LargestDisagreementK = 2;

    public PropertiesValidator()
    {
        RuleFor(properties => properties!.MolarMass).Credible();
        RuleFor(properties => properties!.Density).Credible();
        RuleFor(properties => properties!.MeltingPoint).Credible();
        RuleFor(properties => properties!.BoilingPoint).Credible();
        RuleFor(properties => properties!.FlashPoint).Credible();
        RuleFor(properties => properties!.Autoignition).Credible();
        RuleFor(properties => properties!.LowerFlammableLimit).Credible();
        RuleFor(properties => properties!.UpperFlammableLimit).Credible();
        RuleFor(properties => properties!.UpperFlammableLimit)
            .Must((properties, upper) => upper is null || properties!.LowerFlammableLimit is not { } lower || lower.Si < upper.Si)
            .WithMessage("is not above the lower flammable limit");
        RuleFor(properties => properties!.VapourPressure!).SetValidator(new AntoineValidator());
        RuleFor(properties => properties!.BoilingPoint)
            .Must((properties, boiling) => BoilingPointOf(properties!) is not { } other || boiling is null || Math.Abs(boiling.Si - other) <= LargestDisagreementK)
            .WithMessage(properties => string.Create(CultureInfo.InvariantCulture,
                $"contradicts the vapour pressure, which reaches 1 atm at {BoilingPointOf(properties!)!.Value - UnitTable.CelsiusZeroK:0.#} °C; the two may differ by {LargestDisagreementK} K at most"));
    }

    /// <summary>Where the vapour pressure reaches one atmosphere inside its range, in K.</summary>
    private static double? BoilingPointOf(SubstanceProperties properties) =>
        properties.VapourPressure is { NormalBoilingPointK: { } boilingK, From: { } from, To: { } to } && boilingK >= from.Si && boilingK <= to.Si ? boilingK : null;
}

/// <summary>A vapour pressure rises with temperature and is credible over its whole range.</summary>
internal sealed class AntoineValidator : AbstractValidator<AntoineEntry>
{
    private const double MostPa = 3e7;

    public AntoineValidator()
    {
        RuleFor(antoine => antoine.B).Must(b => b is null or > 0).WithMessage("must be above 0: the vapour pressure rises with temperature");
        RuleFor(antoine => antoine.From).Credible();
        RuleFor(antoine => antoine.To).Credible();
        RuleFor(antoine => antoine.To)
            .Must((antoine, to) => to is null || antoine.From is not { } from || to.Si > from.Si)
            .WithMessage("is not above the lowest temperature");
        RuleFor(antoine => antoine.C)
            .Must((antoine, _) => antoine is not { InSi: { }, B: > 0, From: { } from, To: { } to } || to.Si <= from.Si || (double.IsFinite(antoine.PascalAt(from.Si)) && antoine.PascalAt(to.Si) <= MostPa))
            .WithMessage("gives no credible vapour pressure over the range (above 300 bar, or t + c is not above 0); check the coefficients and their units");
    }
}

internal sealed class MaterialValidator : AbstractValidator<MaterialEntry>
{
    /// <summary>How far the fractions of a mixture may miss 100 %, as a fraction: rounding on a label.</summary>
    private const double FractionTolerance = 0.005;

    public MaterialValidator()
    {
        var substance = new SubstanceValidator();
        RuleFor(material => material.Substance).SetValidator(substance);
        RuleFor(material => material.Solution!).ChildRules(solution =>
        {
            solution.RuleFor(entry => entry.Solvent).SetValidator(substance);
            solution.RuleFor(entry => entry.Concentration).Credible();
        });
        RuleFor(material => material.Amount).Credible();
        RuleFor(material => material.OpenedOn).CredibleDate();
        RuleFor(material => material.PeroxideTest!).ChildRules(test =>
        {
            test.RuleFor(entry => entry.On).CredibleDate();
            test.RuleFor(entry => entry.Ppm).Within(0, 1_000_000);
        });
        RuleForEach(material => material.Mixture).SetValidator(new MixturePartValidator());
        RuleFor(material => material.Mixture).Custom(CheckFractions);
    }

    private static void CheckFractions(IReadOnlyList<MixturePartEntry>? parts, ValidationContext<MaterialEntry> context)
    {
        if (parts is null || parts.Count == 0 || parts.Any(part => part.Fraction is null))
        {
            return;
        }

        string[] units = [.. parts.Select(part => part.Fraction!.Definition.Symbol).Distinct(StringComparer.Ordinal)];
        if (units.Length > 1)
        {
            context.AddFailure(new ValidationFailure(context.PropertyPath, $"mixes {string.Join(" and ", units)}; give all fractions of one mixture in the same unit"));
            return;
        }

        double sum = parts.Sum(part => part.Fraction!.Si);
        if (Math.Abs(sum - 1) > FractionTolerance)
        {
            context.AddFailure(new ValidationFailure(context.PropertyPath, string.Create(CultureInfo.InvariantCulture, $"adds up to {sum * 100:0.###} %; the fractions of a mixture add up to 100 %")));
        }
    }
}

internal sealed class MixturePartValidator : AbstractValidator<MixturePartEntry>
{
    public MixturePartValidator()
    {
        RuleFor(part => part.Substance).SetValidator(new SubstanceValidator());
        RuleFor(part => part.Fraction).Credible();
    }
}

internal sealed class VesselValidator : AbstractValidator<VesselEntry>
{
    /// <summary>Outside diameters in mm: from an NMR microtube to a column. Common practice, no source.</summary>
    private const double LeastDiameterMm = 1, MostDiameterMm = 500;

    /// <summary>Wall in mm of a melting point capillary; thinner is none. Common practice, no source.</summary>
    private const double LeastWallMm = 0.1;

    public VesselValidator()
    {
        RuleFor(vessel => vessel.Volume).Credible(CredibleRange.VesselVolume);
        RuleFor(vessel => vessel.Rating).CredibleRating();
        RuleFor(vessel => vessel.MaximumTemperature).Credible();
        RuleFor(vessel => vessel.InspectedOn).CredibleDate();
        RuleFor(vessel => vessel.GlassTube!).ChildRules(tube =>
        {
            tube.RuleFor(entry => entry.OutsideDiameterMm).Within(LeastDiameterMm, MostDiameterMm);
            tube.RuleFor(entry => entry.WallMm)
                .Must((entry, wall) => wall is null || (wall > 0 && !(wall >= entry.OutsideDiameterMm / 2)))
                .WithMessage("must be above 0 and below half the outside diameter")
                // one fault in the diameter is none in the wall
                .When(IsDiameterCredible, ApplyConditionTo.CurrentValidator)
                .Must((entry, wall) => wall is not > 0 || wall >= entry.OutsideDiameterMm / 2 || (wall >= LeastWallMm && wall <= GlassStrength.MostWallShare * entry.OutsideDiameterMm))
                .WithMessage(string.Create(CultureInfo.InvariantCulture, $"is no credible wall of a glass tube: from {LeastWallMm} mm to {GlassStrength.MostWallShare} times the outside diameter is allowed"))
                .When(IsDiameterCredible, ApplyConditionTo.CurrentValidator);
        });
        RuleFor(vessel => vessel.Relief!).ChildRules(relief => relief.RuleFor(entry => entry.Set).CredibleRating(aboveZero: true));
        RuleFor(vessel => vessel.GlassTube).Must((vessel, tube) => tube is null || vessel.Kind is not { } kind || VesselKinds.MaterialOf(kind) == VesselMaterial.Glass)
            .WithMessage("is the wall of a glass tube, but the kind of the vessel is not of glass; leave it out, or name the kind");
        RuleFor(vessel => vessel.Relief).Must((vessel, relief) => relief is null || vessel.Kind is not { } kind || VesselKinds.TypicalOf(kind) is not { RatedByWall: true })
            .WithMessage("cannot be: a tube that is sealed in the flame has no fitting for a relief device; leave it out, or name another kind");
        RuleForEach(vessel => vessel.Parts).ChildRules(part =>
        {
            part.RuleFor(entry => entry.Rating).CredibleRating();
            part.RuleFor(entry => entry.MaximumTemperature).Credible();
        });
    }

    private static bool IsDiameterCredible(GlassTubeEntry tube) => tube.OutsideDiameterMm is >= LeastDiameterMm and <= MostDiameterMm;
}

internal sealed class PlaceValidator : AbstractValidator<PlaceEntry>
{
    public PlaceValidator()
    {
        RuleFor(place => place.RoomVolume).Credible(CredibleRange.RoomVolume);
        RuleFor(place => place.AirFlow).Credible();
    }
}

internal sealed class ReactionValidator : AbstractValidator<ReactionEntry>
{
    public ReactionValidator()
    {
        RuleForEach(reaction => reaction.Consumes).ChildRules(consumption => consumption.RuleFor(entry => entry.Equivalents).Equivalents());
        RuleForEach(reaction => reaction.Produces).ChildRules(production =>
        {
            production.RuleFor(entry => entry.Equivalents).Equivalents();
            production.RuleFor(entry => entry.Substance).SetValidator(new SubstanceValidator());
        });
        RuleFor(reaction => reaction.Heat).Credible();
        RuleFor(reaction => reaction.Accumulation).Within(0, 1);
        RuleFor(reaction => reaction.DecompositionOnset).Credible();
    }
}
