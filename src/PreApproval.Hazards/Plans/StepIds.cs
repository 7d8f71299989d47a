namespace PreApproval.Hazards.Plans;

/// <summary>The steps that states belong to, as a finding lists them.</summary>
internal static class StepIds
{
    /// <summary>Each step once, in the order of the states.</summary>
    public static string[] Of(IReadOnlyList<StepState> states) => Of(states, static state => state);

    /// <summary>The same for what is judged at a state.</summary>
    public static string[] Of<T>(IReadOnlyList<T> judged, Func<T, StepState> state)
    {
        var ids = new string[judged.Count];
        var count = 0;
        for (var index = 0; index < judged.Count; index++)
        {
            var id = state(judged[index]).Step.Id;
            if (!ids.AsSpan(0, count).Contains(id))
            {
                ids[count++] = id;
            }
        }

        return count == ids.Length ? ids : ids[..count];
    }
}
