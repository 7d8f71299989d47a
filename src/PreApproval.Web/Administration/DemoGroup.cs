using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Administration;

/// <summary>A person of the demo group.</summary>
public sealed record DemoPerson(string UserName, string Name, string Part, IReadOnlyList<GroupRole> Roles, IReadOnlyList<Hazard> Competences);

/// <summary>The demo group. Group, people and procedures are invented.</summary>
public static class DemoGroup
{
    public const string Name = "Demo group (invented)";

    /// <summary>One password for all, printed at the start: there is nothing to protect.</summary>
    public const string Password = "try-the-demo-group";

    public static DemoPerson Mira { get; } = new("mira", "Mira Hallewell", "member", [GroupRole.Member], []);

    public static DemoPerson Odd { get; } = new("odd", "Odd Sørvaag", "member", [GroupRole.Member], []);

    public static DemoPerson Tomas { get; } = new("tomas", "Dr Tomas Brandvik", "reviewer", [GroupRole.Reviewer],
        [Hazard.Pressure, Hazard.Temperature, Hazard.Heat, Hazard.Gas, Hazard.Energetic]);

    public static DemoPerson Ines { get; } = new("ines", "Dr Ines Quiroga", "reviewer", [GroupRole.Reviewer],
        [Hazard.Incompatibility, Hazard.Fire, Hazard.Peroxide, Hazard.Toxicity, Hazard.Safeguard, Hazard.Data]);

    public static DemoPerson Edda { get; } = new("edda", "Prof. Edda Lorne", "group lead", [GroupRole.Lead], []);

    public static DemoPerson Ruth { get; } = new("ruth", "Ruth Amsel", "administrator", [GroupRole.Administrator], []);

    public static IReadOnlyList<DemoPerson> People { get; } = [Mira, Odd, Tomas, Ines, Edda, Ruth];
}
