using System.Globalization;
using System.Reflection;

namespace PreApproval.Web.Shared;

/// <summary>Names the parameters of the query that could not be read; the framework answers 400 without saying which.</summary>
public static class QueryFaults
{
    public static EndpointFilterDelegate Name(EndpointFilterFactoryContext factory, EndpointFilterDelegate next)
    {
        ArgumentNullException.ThrowIfNull(factory);
        (string Name, string Expected, Func<string, bool> IsReadable)[] parameters = [.. factory.MethodInfo.GetParameters().Select(Readable).OfType<(string, string, Func<string, bool>)>()];
        return context =>
        {
            // Set by the binding of parameters, which runs before the filters.
            if (context.HttpContext.Response.StatusCode != StatusCodes.Status400BadRequest)
            {
                return next(context);
            }

            IQueryCollection query = context.HttpContext.Request.Query;
            FieldError[] faults = [.. parameters
                .Where(p => query.TryGetValue(p.Name, out Microsoft.Extensions.Primitives.StringValues values) && !p.IsReadable(values.ToString()))
                .Select(p => new FieldError("?" + p.Name, p.Expected))];
            return ValueTask.FromResult<object?>(Problems.Make(context.HttpContext, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", faults));
        };
    }

    private static (string, string, Func<string, bool>)? Readable(ParameterInfo parameter)
    {
        Type type = Nullable.GetUnderlyingType(parameter.ParameterType) ?? parameter.ParameterType;
        return type == typeof(Guid) ? (parameter.Name!, "Expected a UUID.", v => Guid.TryParse(v, CultureInfo.InvariantCulture, out _))
            : type == typeof(int) ? (parameter.Name!, "Expected an integer.", v => int.TryParse(v, CultureInfo.InvariantCulture, out _))
            : type == typeof(DateTimeOffset) ? (parameter.Name!, "Expected a time, for instance 2031-05-28T08:00:00Z.", v => DateTimeOffset.TryParse(v, CultureInfo.InvariantCulture, DateTimeStyles.None, out _))
            : type == typeof(bool) ? (parameter.Name!, "Expected true or false.", static v => bool.TryParse(v, out _))
            : null;
    }
}
