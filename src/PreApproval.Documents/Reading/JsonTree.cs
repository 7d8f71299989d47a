namespace PreApproval.Documents.Reading;

/// <summary>A parsed JSON value: what is needed to judge a document, with members in the order written.</summary>
internal abstract record JsonTree
{
    private JsonTree()
    {
    }

    /// <summary>The kind in words, for messages.</summary>
    public abstract string Kind { get; }

    internal sealed record Text(string Value) : JsonTree
    {
        public override string Kind => "a string";
    }

    /// <param name="Value">Infinite when too large for a double.</param>
    internal sealed record Number(double Value) : JsonTree
    {
        public override string Kind => "a number";
    }

    internal sealed record Truth(bool Value) : JsonTree
    {
        public override string Kind => "true or false";
    }

    internal sealed record Null : JsonTree
    {
        public override string Kind => "null";
    }

    internal sealed record List(IReadOnlyList<JsonTree> Items) : JsonTree
    {
        public override string Kind => "an array";
    }

    internal sealed record Record(IReadOnlyList<KeyValuePair<string, JsonTree>> Members) : JsonTree
    {
        public override string Kind => "an object";
    }
}
