using FluentValidation;

namespace PreApproval.Documents.Rules;

/// <summary>Rules of the whole document: credible values part by part, then what the parts say of each other.</summary>
internal sealed class ProcedureDocumentValidator : AbstractValidator<ProcedureDocument>
{
    public ProcedureDocumentValidator()
    {
        RuleFor(document => document.Scale!).ChildRules(scale => scale.RuleFor(entry => entry.Amount).Credible());
        RuleFor(document => document.Place!).SetValidator(new PlaceValidator());
        RuleFor(document => document.PlannedOn).CredibleDate();
        RuleForEach(document => document.Materials).SetValidator(new MaterialValidator());
        RuleForEach(document => document.Vessels).SetValidator(new VesselValidator());
        RuleForEach(document => document.Steps).SetValidator(new StepValidator());
        RuleForEach(document => document.Reactions).SetValidator(new ReactionValidator());
        RuleFor(document => document).Custom((document, context) => Inspections.Check(document, context));
        RuleFor(document => document).Custom((document, context) => UniqueIds.Check(document, context));
        RuleFor(document => document).Custom((document, context) => References.Check(document, context));
        RuleFor(document => document).Custom((document, context) => VesselUse.Check(document, context));
        RuleFor(document => document).Custom((document, context) => ComponentCounts.Check(document, context));
        RuleFor(document => document).Custom((document, context) => MaterialBalance.Check(document, context));
    }
}
