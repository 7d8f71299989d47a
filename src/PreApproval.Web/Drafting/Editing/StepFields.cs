namespace PreApproval.Web.Drafting.Editing;

/// <summary>Fields of a step.</summary>
[Flags]
public enum StepFields
{
    None = 0,
    Materials = 1,
    Temperature = 2,
    Duration = 4,
    Over = 8,
    Heating = 16,
    Headspace = 32,
    Closure = 64,
    To = 128,
    Gas = 256,
    Pressure = 512,
    All = 1023,
}

/// <summary>Which fields an action asks for first; the others are one click away.</summary>
public static class StepFieldsOf
{
    public static StepFields Action(string action) => action switch
    {
        "charge" => StepFields.Materials | StepFields.Temperature,
        "add" or "quench" => StepFields.Materials | StepFields.Temperature | StepFields.Over,
        "extract" or "wash" or "chromatograph" => StepFields.Materials,
        "seal" => StepFields.Headspace | StepFields.Closure,
        "purge" or "degas" => StepFields.Headspace | StepFields.Duration,
        "heat" or "reflux" or "dry" => StepFields.Temperature | StepFields.Duration | StepFields.Heating,
        "distil" or "concentrate" => StepFields.Temperature | StepFields.Duration | StepFields.Heating | StepFields.Pressure,
        "cool" or "hold" or "stir" or "irradiate" or "store" => StepFields.Temperature | StepFields.Duration,
        "transfer" or "filter" => StepFields.To,
        "pressurise" => StepFields.Gas | StepFields.Pressure,
        "evacuate" => StepFields.Pressure | StepFields.Duration,
        "open" or "vent" or "discard" or "grind" => StepFields.None,
        _ => StepFields.Materials | StepFields.Temperature | StepFields.Duration,
    };
}
