namespace PreApproval.Hazards.Vessels;

/// <summary>What a vessel is made of, as far as its thresholds depend on it.</summary>
public enum VesselMaterial
{
    Glass,
    Metal,
    Plastic,
}

/// <summary>Reads the kind of a vessel as typed.</summary>
public static class VesselKinds
{
    private static readonly string[] MetalWords = ["steel", "autoclave", "metal", "stainless", "alloy", "titanium"];

    private static readonly string[] CylinderWords = ["gas cylinder", "compressed gas", "lecture bottle"];

    private static readonly string[] PlasticWords = ["plastic", "polypropylene", "polyethylene", "hdpe", "fluoropolymer", "ptfe", "pfa", "centrifuge"];

    private static readonly string[] GlassWords = ["glass", "flask", "vial", "beaker", "schlenk", "funnel", "measuring cylinder"];

    /// <summary>The material; glass, the more cautious, when the words do not say.</summary>
    public static VesselMaterial MaterialOf(string kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        if (Names(kind, MetalWords))
        {
            return VesselMaterial.Metal;
        }

        // a cylinder is of glass unless it holds compressed gas
        if (Names(kind, CylinderWords) && !Names(kind, GlassWords) && !Names(kind, PlasticWords))
        {
            return VesselMaterial.Metal;
        }

        return Names(kind, PlasticWords) && !Names(kind, GlassWords) ? VesselMaterial.Plastic : VesselMaterial.Glass;
    }

    /// <summary>True when the words themselves name glass.</summary>
    public static bool SaysGlass(string kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        return Names(kind, GlassWords) && !Names(kind, PlasticWords) && !Names(kind, MetalWords);
    }

    private static bool Names(string kind, string[] words) => Array.Exists(words, word => kind.Contains(word, StringComparison.OrdinalIgnoreCase));
}
