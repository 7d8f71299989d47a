namespace PreApproval.Hazards.Plans;

/// <summary>The materials that contents came from, as a finding lists them.</summary>
internal static class MaterialIds
{
    /// <summary>Each material once, in ordinal order; what no material brought is left out.</summary>
    public static string[] Of(IEnumerable<Content> contents)
    {
        var ids = new List<string>();
        foreach (var content in contents)
        {
            if (content.MaterialId is { } id && ids.BinarySearch(id, StringComparer.Ordinal) is < 0 and var place)
            {
                ids.Insert(~place, id);
            }
        }

        return [.. ids];
    }
}
