namespace PreApproval.Hazards.Health;

/// <summary>A hazard statement of the UN Globally Harmonized System (GHS) or of Regulation (EC) No 1272/2008, with the class and category it stands for.</summary>
/// <param name="Code">For instance <c>H225</c>; <c>EUH019</c> for the supplemental information of the regulation.</param>
/// <param name="HazardClass">For instance <c>flammable liquid</c>.</param>
/// <param name="Category">For instance <c>2</c> or <c>1B</c>; empty where the class has no categories.</param>
/// <param name="Text">The wording of the standard.</param>
public sealed record HazardStatement(string Code, string HazardClass, string Category, string Text);
