using System.Globalization;
using FluentValidation;
using FluentValidation.Results;

namespace PreApproval.Documents.Rules;

/// <summary>A vessel was inspected before the work, not after it.</summary>
internal static class Inspections
{
    public static void Check(ProcedureDocument document, ValidationContext<ProcedureDocument> context)
    {
        foreach ((int index, VesselEntry vessel) in document.Vessels.Index())
        {
            if (document.PlannedOn is { } planned && vessel.InspectedOn > planned)
            {
                context.AddFailure(new ValidationFailure(
                    string.Create(CultureInfo.InvariantCulture, $"Vessels[{index}].InspectedOn"),
                    string.Create(CultureInfo.InvariantCulture, $"is after the planned day ({planned:yyyy-MM-dd}): enter the day of the last inspection, or correct the planned day")));
            }
        }
    }
}
