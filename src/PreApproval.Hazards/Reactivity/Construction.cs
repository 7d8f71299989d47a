using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Reactivity;

/// <summary>What the vessel, its closure and its fittings are made of, as far as their words say and the table of encounters asks.</summary>
internal static class Construction
{
    public static void AddTo(HashSet<string> present, Vessel vessel)
    {
        if (VesselKinds.SaysGlass(vessel.Kind))
        {
            present.Add(EncounterTable.Glass);
        }

        // a lining keeps the contents from the metal
        if ((Says(vessel.Kind, "steel") || Says(vessel.Kind, "autoclave")) && !Says(vessel.Kind, "lined") && !Says(vessel.Kind, "liner"))
        {
            present.Add(EncounterTable.Steel);
        }

        if (Anywhere(vessel, "brass") || Anywhere(vessel, "copper"))
        {
            present.Add(EncounterTable.CopperAlloy);
        }

        // the aluminium of a crimp cap lies behind its septum
        if (Says(vessel.Kind, "aluminium") || Says(vessel.Kind, "aluminum") || AnyPart(vessel, "aluminium") || AnyPart(vessel, "aluminum"))
        {
            present.Add(EncounterTable.AluminiumWare);
        }

        if (Anywhere(vessel, "PTFE"))
        {
            present.Add(EncounterTable.Ptfe);
        }
    }

    /// <summary>Ground joints where they are named, and in every flask with necks for them whose words do not say that its joints are smooth.</summary>
    public static bool HasGroundJoints(Vessel vessel)
    {
        if (Anywhere(vessel, "smooth") || Anywhere(vessel, "polished") || Anywhere(vessel, "without ground") || Anywhere(vessel, "no ground"))
        {
            return false;
        }

        return Anywhere(vessel, "ground")
            || (VesselKinds.MaterialOf(vessel.Kind) == VesselMaterial.Glass
                && (Says(vessel.Kind, "round-bottom") || Says(vessel.Kind, "round bottom") || Says(vessel.Kind, "necked") || Says(vessel.Kind, "pear") || Says(vessel.Kind, "Schlenk")));
    }

    private static bool Anywhere(Vessel vessel, string word) =>
        Says(vessel.Kind, word) || (vessel.Closure is { } closure && Says(closure, word)) || AnyPart(vessel, word);

    private static bool AnyPart(Vessel vessel, string word)
    {
        for (var index = 0; index < vessel.Parts.Count; index++)
        {
            if (Says(vessel.Parts[index].Name, word))
            {
                return true;
            }
        }

        return false;
    }

    private static bool Says(string text, string word) => text.Contains(word, StringComparison.OrdinalIgnoreCase);
}
