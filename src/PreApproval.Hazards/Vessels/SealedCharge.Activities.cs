using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Vessels;

/// <content>Activity models of what is shut in, kept from one temperature to the next.</content>
internal sealed partial class SealedCharge
{
    private string[]? _among;
    private Unifac.UnifacAtTemperature? _activitiesAmong;
    private IReadOnlyList<string> _gapsAmong = [];

    /// <summary>The activity model of <see cref="Mixing"/> at a temperature in K, in one work space; null without a model.</summary>
    public Unifac.UnifacAtTemperature? ActivitiesAt(double temperatureK)
    {
        if (Model is not null)
        {
            _activities ??= Model.At(temperatureK);
            _activities.MoveTo(temperatureK);
        }

        return _activities;
    }

    /// <summary>The activity model of some of <see cref="Mixing"/>, in their order, at a temperature in K; null where parameters are missing. The last one serves again for the same liquids.</summary>
    public Unifac.UnifacAtTemperature? ActivitiesAmong(VolatilePart[] counted, double temperatureK, out IReadOnlyList<string> gaps)
    {
        if (_among is null || !_among.AsSpan().SequenceEqual(Array.ConvertAll(counted, static part => part.Key)))
        {
            _among = Array.ConvertAll(counted, static part => part.Key);
            _activitiesAmong = Unifac.TryCreate(Array.ConvertAll(counted, GroupsOf), out _gapsAmong)?.At(temperatureK);
        }

        gaps = _gapsAmong;
        _activitiesAmong?.MoveTo(temperatureK);
        return _activitiesAmong;
    }

    private IReadOnlyDictionary<int, int> GroupsOf(VolatilePart counted) =>
        Array.Find(Mixing, part => string.Equals(part.Substance.Key, counted.Key, StringComparison.Ordinal)).Substance.UnifacGroups!.Value;
}
