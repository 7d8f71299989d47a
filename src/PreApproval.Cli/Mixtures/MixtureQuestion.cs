using PreApproval.Hazards.Mixtures;

namespace PreApproval.Cli.Mixtures;

/// <summary>A liquid mixture as asked.</summary>
/// <param name="Mixture">Its composition.</param>
/// <param name="TemperatureC">Temperature in °C.</param>
/// <param name="Identifiers">The identifier as given for each part, in their order.</param>
/// <param name="Warnings">What the reader must know of how the input was taken.</param>
internal sealed record MixtureQuestion(LiquidMixture Mixture, double TemperatureC, IReadOnlyList<string> Identifiers, IReadOnlyList<string> Warnings);
