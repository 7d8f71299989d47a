using System.Globalization;
using PreApproval.Audit;

namespace PreApproval.Procedures.History;

/// <summary>
/// Compares the stored log with itself and with the rows that it tells of. Fed in this order: head, events, then the rows. Collects
/// faults and never throws over what is stored.
/// </summary>
internal sealed class LogCheck
{
    private const int MostFaults = 20;

    private readonly List<LogFault> _faults = [];
    private readonly StoredHead _stored;
    private readonly CompactRange? _head;
    private readonly RowCheck _rows;
    private readonly VersionCheck _versions;
    private CompactRange _recomputed = CompactRange.Empty;
    private bool _outOfOrder;

    /// <param name="stored">The head's row.</param>
    /// <param name="documentDigest">Digest of a document from its bytes; null when they can't be read.</param>
    public LogCheck(StoredHead stored, Func<byte[], string?> documentDigest)
    {
        _stored = stored;
        _rows = new RowCheck(documentDigest, Add);
        _versions = new VersionCheck(Add);
        try
        {
            _head = CompactRange.FromBytes(stored.CompactRange);
        }
        catch (FormatException e)
        {
            Add(null, $"The stored head of the log can't be read: {e.Message}");
        }

        if (_head is not null && _head.Size != stored.Size)
        {
            Add(null, Say($"The stored head says {stored.Size} events in one place and {_head.Size} in another."));
        }
    }

    public void Event(AuditEventRecord stored)
    {
        long expected = _recomputed.Size;
        byte[] hash = MerkleTree.LeafHash(stored.Leaf);
        _recomputed = _recomputed.Append(hash);
        if (stored.Sequence != expected && !_outOfOrder)
        {
            _outOfOrder = true;
            Add(expected, Say($"Event {expected} is missing: event {stored.Sequence} stands in its place."));
        }

        if (stored.Sequence >= _stored.Size)
        {
            Add(stored.Sequence, Say($"Event {stored.Sequence} lies beyond the end of the log, which has {_stored.Size} events."));
        }

        if (!hash.AsSpan().SequenceEqual(stored.LeafHash))
        {
            Add(stored.Sequence, Say($"The record of event {stored.Sequence} does not give its leaf hash."));
        }

        if (!AuditLeaf.TryParse(stored.Leaf, out AuditLeaf? leaf, out string error))
        {
            Add(stored.Sequence, Say($"The record of event {stored.Sequence} can't be read: {error}"));
            return;
        }

        if (!AuditTrail.Agrees(leaf, stored))
        {
            Add(stored.Sequence, Say($"The columns of event {stored.Sequence} do not say what its record says."));
        }

        _rows.Event(leaf);
        _versions.Event(leaf);
    }

    public void Revision(RevisionEvidence stored) => _rows.Revision(stored);

    public void Slot(SlotEvidence stored) => _rows.Slot(stored);

    public void Decision(DecisionEvidence stored) => _rows.Decision(stored);

    public void Version(VersionEvidence stored) => _versions.Version(stored);

    /// <summary>For rows that can't even be read from the database.</summary>
    public void Unreadable(string what, Exception why) => Add(null, $"{what} can't be read from the database: {why.Message}");

    public LogStatus Finish()
    {
        _rows.Finish();
        _versions.Finish();
        byte[] root = (_head ?? _recomputed).Root();
        if (_recomputed.Size < _stored.Size)
        {
            Add(_recomputed.Size, Say($"The log should have {_stored.Size} events, and {_recomputed.Size} are stored."));
        }
        else if (_recomputed.Size == _head?.Size && !_recomputed.Root().AsSpan().SequenceEqual(root))
        {
            Add(null, "The stored events do not give the stored root.");
        }

        LogFault[] faults = [.. _faults.OrderBy(fault => fault.Sequence ?? long.MaxValue)];
        return new LogStatus(_stored.Size, Convert.ToHexStringLower(root), faults.Length == 0) { Faults = faults };
    }

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);

    private void Add(long? sequence, string sentence)
    {
        if (_faults.Count < MostFaults)
        {
            _faults.Add(new LogFault(sequence, sentence));
        }
    }
}
