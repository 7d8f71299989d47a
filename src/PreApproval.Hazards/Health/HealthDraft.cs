using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Health;

/// <summary>What is known of the health hazards of one substance while the data files are being read.</summary>
internal sealed class HealthDraft
{
    public Sourced<IReadOnlyList<HazardStatement>>? Statements { get; set; }

    public List<ExposureLimit>? Limits { get; set; }

    public ImmediateDanger? Idlh { get; set; }

    public CarcinogenNote? Carcinogen { get; set; }

    public ExposureLimits? BuildLimits() => Limits is null ? null : new ExposureLimits(Limits);
}
