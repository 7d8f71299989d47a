namespace PreApproval.Hazards.Plans;

/// <summary>The materials that contents came from, as a finding lists them.</summary>
internal static class MaterialIds
{
    /// <summary>Each material once, in ordinal order; what no material brought is left out.</summary>
    public static string[] Of(IReadOnlyList<Content> contents)
    {
        var ids = contents.Count == 0 ? [] : new string[contents.Count];
        var count = 0;
        for (var index = 0; index < contents.Count; index++)
        {
            if (contents[index].MaterialId is { } id && ids.AsSpan(0, count).BinarySearch(id, StringComparer.Ordinal) is < 0 and var place)
            {
                ids.AsSpan(~place, count++ - ~place).CopyTo(ids.AsSpan(~place + 1));
                ids[~place] = id;
            }
        }

        return count == ids.Length ? ids : ids[..count];
    }

    /// <inheritdoc cref="Of(IReadOnlyList{Content})"/>
    public static string[] Of(IEnumerable<Content> contents) => Of(contents as IReadOnlyList<Content> ?? [.. contents]);
}
