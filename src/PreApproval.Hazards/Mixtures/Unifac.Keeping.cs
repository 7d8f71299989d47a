namespace PreApproval.Hazards.Mixtures;

/// <content>Models kept for a while: one plan asks for the same liquids in its closed steps, its releases, its flash points and its layers.</content>
public sealed partial class Unifac
{
    // of one thread, from KeepModels to the end of it; null: none are kept
    [ThreadStatic]
    private static List<(UnifacTable Table, IReadOnlyList<IReadOnlyDictionary<int, int>> Components, Unifac? Model, IReadOnlyList<string> Missing)>? keeping;

    /// <summary>Until it is disposed of, every model that this thread creates is kept and serves again for the same groups in the same order. Inside another one it does nothing.</summary>
    internal static Keeper KeepModels()
    {
        var isFirst = keeping is null;
        keeping ??= new(8);
        return new Keeper(isFirst);
    }

    private static (Unifac? Model, IReadOnlyList<string> Missing)? Kept(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components)
    {
        for (var index = 0; index < keeping?.Count; index++)
        {
            var (known, of, model, missing) = keeping[index];
            if (ReferenceEquals(known, table) && AreSame(of, components))
            {
                return (model, missing);
            }
        }

        return null;
    }

    private static void Keep(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components, Unifac? model, IReadOnlyList<string> missing) => keeping?.Add((table, components, model, missing));

    private static bool AreSame(IReadOnlyList<IReadOnlyDictionary<int, int>> one, IReadOnlyList<IReadOnlyDictionary<int, int>> other)
    {
        if (one.Count != other.Count)
        {
            return false;
        }

        for (var index = 0; index < one.Count; index++)
        {
            if (!ReferenceEquals(one[index], other[index]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Ends the keeping.</summary>
    internal readonly ref struct Keeper(bool isFirst)
    {
        /// <summary>Forgets the models, unless they are kept for something around this.</summary>
        public void Dispose()
        {
            if (isFirst)
            {
                keeping = null;
            }
        }
    }
}
