namespace PreApproval.Hazards.Mixtures;

/// <content>Models kept for a while: one plan asks for the same liquids in its closed steps, its releases, its flash points and its layers.</content>
public sealed partial class Unifac
{
    // of one thread, from KeepModels to the end of it; null: none are kept
    [ThreadStatic]
    private static List<KeptModel>? keeping;

    /// <summary>Until it is disposed of, every model that this thread creates is kept and serves again for the same groups in the same order. Inside another one it does nothing.</summary>
    internal static Keeper KeepModels()
    {
        var isFirst = keeping is null;
        keeping ??= new(8);
        return new Keeper(isFirst);
    }

    /// <summary>The model at a temperature in K for an answer that is done with at once: where models are kept, in one work space, which the next such question moves on.</summary>
    internal UnifacAtTemperature Passing(double temperatureK)
    {
        for (var index = 0; index < keeping?.Count; index++)
        {
            if (ReferenceEquals(keeping[index].Model, this))
            {
                var space = keeping[index].Space ??= At(temperatureK);
                space.MoveTo(temperatureK);
                return space;
            }
        }

        return At(temperatureK);
    }

    private static KeptModel? Kept(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components)
    {
        for (var index = 0; index < keeping?.Count; index++)
        {
            if (ReferenceEquals(keeping[index].Table, table) && AreSame(keeping[index].Components, components))
            {
                return keeping[index];
            }
        }

        return null;
    }

    private static void Keep(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components, Unifac? model, IReadOnlyList<string> missing) => keeping?.Add(new KeptModel(table, components, model, missing));

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

    private sealed class KeptModel(UnifacTable table, IReadOnlyList<IReadOnlyDictionary<int, int>> components, Unifac? model, IReadOnlyList<string> missing)
    {
        public UnifacTable Table { get; } = table;

        public IReadOnlyList<IReadOnlyDictionary<int, int>> Components { get; } = components;

        public Unifac? Model { get; } = model;

        public IReadOnlyList<string> Missing { get; } = missing;

        public UnifacAtTemperature? Space { get; set; }
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
