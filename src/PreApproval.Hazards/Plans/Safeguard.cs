namespace PreApproval.Hazards.Plans;

/// <param name="Control">As typed.</param>
/// <param name="Steps">Steps it covers; empty: all.</param>
/// <param name="Detail">As typed.</param>
public sealed record Safeguard(string Control, IReadOnlyList<string> Steps, string? Detail);

public sealed record FireResponse(IReadOnlyList<Agent> Agents, string? Plan);

/// <summary>Extinguishing agents.</summary>
public enum Agent
{
    Water,
    Foam,
    CarbonDioxide,
    DryPowder,
    ClassDPowder,
    DrySand,
    WetChemical,
    FireBlanket,
}

public sealed record WasteContainer(IReadOnlyList<string> Materials, string Container);
