using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Documents;

/// <summary>A value or the reason there is none. The only result type of the project.</summary>
public readonly record struct Result<T, TError>
    where T : notnull
    where TError : notnull
{
    private Result(T? value, TError? error, bool ok) => (Value, Error, IsOk) = (value, error, ok);

    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Error))]
    public bool IsOk { get; }

    public T? Value { get; }

    public TError? Error { get; }

    /// <summary>For values whose type is an interface, which no conversion operator can take.</summary>
    public static Result<T, TError> Ok(T value) => new(value, default, true);

    public static implicit operator Result<T, TError>(T value) => new(value, default, true);

    public static implicit operator Result<T, TError>(TError error) => new(default, error, false);
}
