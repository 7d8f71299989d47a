namespace PreApproval.Documents.Reading;

/// <summary>A fault with the kind that decides whether a draft may keep it.</summary>
internal sealed record ReadFault(DocumentRefusalKind Kind, string Path, string Message);

/// <summary>Collects faults while reading.</summary>
internal sealed class FaultList
{
    /// <summary>A hostile document could have a million faults; nobody reads more than these.</summary>
    public const int Most = 200;

    private readonly List<ReadFault> _faults = [];

    public IReadOnlyList<ReadFault> All => _faults;

    public void Add(DocumentRefusalKind kind, string path, string message)
    {
        if (_faults.Count < Most)
        {
            _faults.Add(new ReadFault(kind, path, message));
        }
    }

    public void Invalid(string path, string message) => Add(DocumentRefusalKind.Invalid, path, message);
}
