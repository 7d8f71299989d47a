using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Vessels;

/// <content>Activity models of what is shut in, kept from one temperature to the next.</content>
internal sealed partial class SealedCharge
{
    // filled anew at each temperature, for as many liquids as were counted last
    private VolatilePart[] _counted = [];
    private string[]? _among;
    private Unifac.UnifacAtTemperature? _activitiesAmong;
    private string? _gapsAmong;

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

    /// <summary>
    /// The liquids of <see cref="Mixing"/> with a vapour pressure to speak of at a point, in their order and in one work space, their activity model (null for one alone), and what it lacks in words; null where it
    /// lacks nothing. The last model serves again for the same liquids.
    /// </summary>
    public (VolatilePart[] Liquids, Unifac.UnifacAtTemperature? Model, string? Gaps) Counted(VesselPoint point)
    {
        var count = 0;
        foreach (var part in point.Mixing)
        {
            count += part.SaturationPa >= NegligiblePa ? 1 : 0;
        }

        if (_counted.Length != count)
        {
            _counted = new VolatilePart[count];
        }

        var at = 0;
        foreach (var part in point.Mixing)
        {
            if (part.SaturationPa >= NegligiblePa)
            {
                _counted[at++] = part;
            }
        }

        if (count < 2)
        {
            return (_counted, null, null);
        }

        if (!IsAmong(_counted))
        {
            _among = Array.ConvertAll(_counted, static part => part.Key);
            _activitiesAmong = Unifac.TryCreate(Array.ConvertAll(_counted, GroupsOf), out var gaps)?.At(point.TemperatureK);
            _gapsAmong = _activitiesAmong is null ? $"UNIFAC has no published interaction parameters for {string.Join(", ", gaps)}" : null;
        }

        _activitiesAmong?.MoveTo(point.TemperatureK);
        return (_counted, _activitiesAmong, _gapsAmong);
    }

    private bool IsAmong(VolatilePart[] counted)
    {
        if (_among?.Length != counted.Length)
        {
            return false;
        }

        for (var index = 0; index < counted.Length; index++)
        {
            if (!string.Equals(_among[index], counted[index].Key, StringComparison.Ordinal))
            {
                return false;
            }
        }

        return true;
    }

    private IReadOnlyDictionary<int, int> GroupsOf(VolatilePart counted) =>
        Array.Find(Mixing, part => string.Equals(part.Substance.Key, counted.Key, StringComparison.Ordinal)).Substance.UnifacGroups!.Value;
}
