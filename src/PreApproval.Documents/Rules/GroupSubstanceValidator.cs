using System.Globalization;
using FluentValidation;
using FluentValidation.Results;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Rules;

/// <summary>What must hold of a substance in a group's own list beyond what holds of any substance in a document.</summary>
internal sealed class GroupSubstanceValidator : AbstractValidator<GroupSubstance>
{
    /// <summary>How far molar mass and formula may disagree: atomic weights are rounded differently in tables.</summary>
    private const double LargestMassDisagreement = 0.001;

    /// <summary>A copy in a procedure document says before it which list and version it came from.</summary>
    private const int LongestSource = 240;

    public GroupSubstanceValidator()
    {
        RuleFor(substance => substance.Cas)
            .Must(cas => cas is null || CasNumber.IsValid(cas))
            .WithMessage((_, cas) => string.Create(CultureInfo.InvariantCulture,
                $"{cas} has a wrong check digit: the last digit should be {CasCheckDigit.Of(cas!)}. Compare it with the label or the safety data sheet"));
        RuleFor(substance => substance).Custom(CheckNames);
        RuleFor(substance => substance.Properties).SetValidator(new PropertiesValidator()!);
        RuleFor(substance => substance.Properties).ChildRules(properties =>
        {
            properties.RuleFor(entry => entry.Formula)
                .Must(formula => formula is null || Formula.MolarMassKgPerMol(formula) is not null)
                .WithMessage("is not read as a molecular formula, for instance C4H8O; leave it out where there is none");
            properties.RuleFor(entry => entry.MolarMass).Custom(CheckMass);
            properties.RuleFor(entry => entry.Source).Must(IsShortEnough).WithMessage($"has more than {LongestSource} characters");
            properties.RuleFor(entry => entry).Custom(CheckSources);
            properties.RuleFor(entry => entry.FlashPoint)
                .Must((entry, flash) => flash is null || entry.Autoignition is not { } ignition || flash.Si < ignition.Si)
                .WithMessage("is not below the autoignition temperature");
            properties.RuleFor(entry => entry.BoilingPoint)
                .Must((entry, boiling) => boiling is null || entry.MeltingPoint is not { } melting || melting.Si <= boiling.Si)
                .WithMessage("is below the melting point");
        });
    }

    private static void CheckMass(Quantity? molarMass, ValidationContext<SubstanceProperties> context)
    {
        if (molarMass is not null && context.InstanceToValidate.Formula is { } formula && Formula.MolarMassKgPerMol(formula) is { } fromFormula
            && Math.Abs(molarMass.Si - fromFormula) > LargestMassDisagreement * fromFormula)
        {
            context.AddFailure(new ValidationFailure(context.PropertyPath,
                string.Create(CultureInfo.InvariantCulture, $"contradicts the formula: {formula} has {fromFormula * 1000:0.###} g/mol")));
        }
    }

    private static void CheckSources(SubstanceProperties properties, ValidationContext<SubstanceProperties> context)
    {
        foreach ((string member, string source) in properties.Sources ?? new Dictionary<string, string>(StringComparer.Ordinal))
        {
            string path = $"Properties.Sources.{member}";
            if (!IsGiven(properties, member))
            {
                context.AddFailure(new ValidationFailure(path, $"is the source of a value that is not given: give {member}, or leave its source out"));
            }
            else if (!IsShortEnough(source))
            {
                context.AddFailure(new ValidationFailure(path, $"has more than {LongestSource} characters"));
            }
        }
    }

    /// <summary>A name must not mean another substance of the catalogue, nor a solution of one.</summary>
    private static void CheckNames(GroupSubstance substance, ValidationContext<GroupSubstance> context)
    {
        string[] names = [.. substance.Names];
        for (int i = 0; i < names.Length; i++)
        {
            string path = i == 0 ? "Name" : string.Create(CultureInfo.InvariantCulture, $"Synonyms[{i - 1}]");
            if (names[i].Length > GroupSubstance.LongestName)
            {
                context.AddFailure(new ValidationFailure(path, string.Create(CultureInfo.InvariantCulture, $"has more than {GroupSubstance.LongestName} characters")));
            }
            else if (CasNumber.IsValid(names[i]))
            {
                context.AddFailure(new ValidationFailure(path, "is a CAS number; it has a field of its own"));
            }
            else if (SolutionCatalog.Default.TryFindInProcedure(names[i], out _))
            {
                context.AddFailure(new ValidationFailure(path, $"\"{Shown.Text(names[i])}\" is the name of a solution; give it a name that says what is in it and how much"));
            }
            else if (Catalog.Default.TryFindByName(names[i], out Substance? listed) && substance.Cas is { } cas && !string.Equals(listed.Identity.Cas, cas, StringComparison.Ordinal))
            {
                context.AddFailure(new ValidationFailure(path, $"\"{Shown.Text(names[i])}\" is another substance of the catalogue ({listed.Key}) than {cas}; correct the name or the CAS number"));
            }
            else if (names[..i].Any(earlier => NameSpelling.Same(earlier, names[i])))
            {
                context.AddFailure(new ValidationFailure(path, "is given twice"));
            }
        }
    }

    private static bool IsShortEnough(string? source) => source is null || source.Length <= LongestSource;

    private static bool IsGiven(SubstanceProperties properties, string member) => member switch
    {
        "molarMass" => properties.MolarMass is not null,
        "density" => properties.Density is not null,
        "meltingPoint" => properties.MeltingPoint is not null,
        "boilingPoint" => properties.BoilingPoint is not null,
        "flashPoint" => properties.FlashPoint is not null,
        "autoignition" => properties.Autoignition is not null,
        "lowerFlammableLimit" => properties.LowerFlammableLimit is not null,
        "upperFlammableLimit" => properties.UpperFlammableLimit is not null,
        "vapourPressure" => properties.VapourPressure is not null,
        _ => false,
    };
}
